import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLines } from '#core/index.js';
import { type BySlice, fingersAt, judge } from '#core/review/measure/judged.js';
import { Window } from '#core/review/measure/window.js';
import { scoreOf } from './score.js';

describe('the search for remedies', () => {
  const key = fc.integer({ min: 55, max: 72 });
  const finger = fc.constantFrom(1, 2, 3, 4, 5, undefined);
  const NAMES = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;
  const onset = fc
    .tuple(key, finger)
    .map(
      ([own, digit]) =>
        `${NAMES[own % 12]}${Math.floor(own / 12) - 1}${digit === undefined ? '' : `=${digit}`}`,
    );

  it('finds the least of movement and price together, as every fingering one by one has it', () => {
    fc.assert(
      fc.property(
        fc.array(onset, { minLength: 1, maxLength: 4 }),
        fc.constantFrom(0, 2, 6, 20),
        (onsets, price) => {
          const [own] = readLines(scoreOf({ right: onsets.join(' ') })).lines;
          const judged = judge(own!.line, own!.hand, own!.context);
          const window = new Window(judged, 0, judged.views.length);
          const changed = (path: BySlice) =>
            judged.digits.reduce((sum, digits, at) => {
              const fingers = fingersAt(judged, path, at);
              return (
                sum + digits.filter((digit, nth) => digit !== undefined && digit !== fingers[nth]).length
              );
            }, 0);
          const worth = (path: readonly number[]) => window.with(path).saved - price * changed(path);
          let best = Number.NEGATIVE_INFINITY;
          const visit = (path: readonly number[]): void => {
            const view = judged.views[path.length];
            if (!view) best = Math.max(best, worth(path));
            else view.candidates.forEach((_, candidate) => void visit([...path, candidate]));
          };
          visit([]);
          const found = window.cheapest(price);
          expect(found.saved - price * changed(found.choice.path)).toBe(best);
          expect(found.saved).toBeGreaterThanOrEqual(0);
        },
      ),
      { numRuns: 25, seed: 18 },
    );
  });
});
