import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { annotate, readLines } from '@handline/core';
import { expect, it } from 'vitest';
import { ROOT } from '../musicxml/read-source.js';

const SCORES = join(ROOT, 'fixtures/scores');
const names = readdirSync(SCORES).filter((name) => name.endsWith('.musicxml'));

/** The digit in print at every struck key. */
function printed(bytes: Uint8Array, digits: 'all' | 'sparse'): readonly (number | undefined)[] {
  const { output } = annotate(bytes, { existing: 'replace', digits, layers: [] });
  return readLines(output).lines.flatMap(({ line }) =>
    line.slices.flatMap(({ struck }) => struck.map(({ fixed }) => fixed)),
  );
}

it.each(names)(
  '%s: where digits are replaced, none of the old ones stays among the few that a reader needs',
  (name) => {
    const bytes = new Uint8Array(readFileSync(join(SCORES, name)));
    const [all, sparse] = [printed(bytes, 'all'), printed(bytes, 'sparse')];
    expect(sparse.filter((digit) => digit !== undefined).length).toBeGreaterThan(20);
    expect(sparse.map((digit, nth) => digit ?? all[nth])).toEqual(all);
  },
);
