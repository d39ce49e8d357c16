import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { annotate } from '#core/index.js';
import { DENSITIES } from '#core/options/options.js';
import { FIXTURES, TUNES } from '../scores.js';

/** Directions that English reasons and cues name. */
const OUT = /\bout\b/;
const IN = /\bin\b/;

it('the reason at a cue in or out goes the way of the cue, and no cue has none', () => {
  let [cues, without] = [0, 0];
  const scores = DENSITIES.flatMap((density) => TUNES.map((name) => ({ name, density })));
  for (const { name, density } of scores) {
    const { report } = annotate(readFileSync(`${FIXTURES}${name}`), { layers: ['depth'], density });
    for (const { slices } of report.lines) {
      for (const { cue, reason, measure } of slices) {
        if (cue === undefined) continue;
        cues++;
        if (reason === '') without++;
        else
          expect([name, measure, cue, reason.split(/:|, ready/)[0]]).toEqual([
            name,
            measure,
            cue,
            expect.stringMatching(OUT.test(cue) ? OUT : IN),
          ]);
      }
    }
  }
  expect(cues).toBeGreaterThan(150);
  expect(without).toBe(0);
});
