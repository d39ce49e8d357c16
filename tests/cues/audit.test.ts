import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { english } from '#core/cues/words/en.js';
import { DENSITIES } from '#core/options/options.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { audit } from './audit.js';

describe('every printed cue is one that its rule confirms', () => {
  const files = [...TUNES.map((name) => `${FIXTURES}${name}`), ...editions(1, 0.2)];
  const seen = new Set<string>();

  it.each(DENSITIES)('at %s', (density) => {
    const faults = files.flatMap((file) =>
      audit(new Uint8Array(readFileSync(file)), file.split('/').at(-1)!, density, seen),
    );
    expect(faults).toEqual([]);
  });

  it('and of every cue that there is one was printed', () => {
    const { cues, full } = english;
    const missing = Object.values({ ...cues, ...full }).filter((text) => !seen.has(text));
    expect(missing).toEqual([]);
  });
});
