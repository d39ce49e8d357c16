import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdits } from '#core/musicxml/marks/edits.js';
import { writeMarks } from '#core/musicxml/marks/write.js';
import { clear, mark, read } from '../musicxml/write-source.js';
import { RUNS } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';
import { markPlan, marksOf } from './marks.js';

describe('marks on generated scores', () => {
  it('clear gives back the original bytes, without a warning', () => {
    let marked = 0;
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const output = mark(original, marksOf(plan, read(original).score));
        if (output !== original) marked++;
        const cleared = clear(output);
        expect(cleared.warnings).toEqual([]);
        expect(cleared.text).toBe(original);
      }),
      RUNS,
    );
    expect(marked).toBeGreaterThan(RUNS.numRuns / 2);
  });

  it('the text without our edits is the original, byte for byte', () => {
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const source = read(original);
        const edits = writeMarks(original, source, marksOf(plan, source.score));
        const output = applyEdits(original, edits);
        const sorted = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
        let [from, shift, rest] = [0, 0, ''];
        for (const { start, end, text } of sorted) {
          rest += output.slice(from, start + shift) + original.slice(start, end);
          expect(output.slice(start + shift, start + shift + text.length)).toBe(text);
          from = start + shift + text.length;
          shift += text.length - (end - start);
          // Only a digit that the user asked us to replace is ever taken out.
          if (end > start) {
            expect(plan.replaceDigits).toBe(true);
            expect(original.slice(start, end)).toMatch(/^<fingering[\s>]/);
          }
        }
        expect(rest + output.slice(from)).toBe(original);
      }),
      RUNS,
    );
  });

  it('a second run with other options replaces our marks, and clear still finds the original', () => {
    fc.assert(
      fc.property(scoreModel, markPlan, markPlan, (model, first, second) => {
        const original = toXml(model);
        const { score } = read(original);
        const cleared = clear(mark(original, marksOf(first, score))).text;
        const again = mark(cleared, marksOf(second, read(cleared).score));
        expect(again).toBe(mark(original, marksOf(second, score)));
        expect(clear(again).text).toBe(original);
      }),
      RUNS,
    );
  });

  it('clearing a text without marks changes nothing, whatever its comments quote', () => {
    fc.assert(
      fc.property(scoreModel, (model) => {
        const original = toXml(model);
        expect(clear(original)).toEqual({ text: original, edits: [], warnings: [] });
      }),
      RUNS,
    );
  });
});
