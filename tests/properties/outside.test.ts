import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type OutsideView, outsideReader } from '../conformance/outside-reader.js';
import { mark, read } from '../musicxml/write-source.js';
import { RUNS } from '../rounds.js';
import { expectedDigits, expectedWords } from './expected.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';
import { markPlan, marksOf } from './marks.js';

describe('marked scores as verovio reads them', () => {
  let view: (text: string) => OutsideView;
  beforeAll(async () => {
    view = await outsideReader();
  });

  it('have the same music, each digit on its own note, each cue at its time and staff', () => {
    let [digits, words] = [0, 0];
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const source = read(original);
        const marks = marksOf(plan, source.score);
        const before = view(original);
        const after = view(mark(original, marks));
        expect(after.music).toBe(before.music);
        expect(after.digits).toEqual(expectedDigits(before.digits, source, marks));
        expect(after.words).toEqual(expectedWords(before.words, source, marks));
        digits += after.digits.length - before.digits.length;
        words += after.words.length - before.words.length;
      }),
      RUNS,
    );
    console.log(`verovio: ${digits} more digits and ${words} more directions in ${RUNS.numRuns} scores`);
    expect(Math.min(digits, words)).toBeGreaterThan(RUNS.numRuns);
  });
});
