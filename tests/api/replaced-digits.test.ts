import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { annotate, clear, readLines } from '@handline/core';
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

const digitsOf = (text: string) =>
  readLines(text).lines.flatMap(({ line }) =>
    line.slices.flatMap(({ struck }) => struck.map(({ fixed }) => fixed)),
  );

it.each(names.filter((_, nth) => nth % 3 === 0))(
  '%s: where digits are replaced by none, none is left, and clear brings them back',
  (name) => {
    const text = readFileSync(join(SCORES, name), 'utf8');
    const given = text.match(/<fingering/g)!.length;
    for (const layers of [[], ['depth']] as const) {
      const { output, report } = annotate(text, { existing: 'replace', digits: 'none', layers });
      const resaved = output.replaceAll(/<\?handline [\s\S]*?\?>/g, '');
      expect(resaved).not.toContain('<fingering');
      expect(report.lines.map(({ kept, fingered }) => kept + fingered)).toEqual(report.lines.map(() => 0));
      expect(clear(output).output).toBe(text);
      // As saved by a program that drops instructions.
      const back = clear(resaved);
      expect(back.warnings).toEqual([]);
      expect(digitsOf(back.output)).toEqual(digitsOf(text));
      expect(back.output.match(/<fingering/g)!.length).toBe(given);
    }
  },
);
