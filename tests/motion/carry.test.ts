import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { keyX } from '#core/keyboard/key-plan.js';
import { planCarry } from '#core/motion/carry.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { planMotion } from '#core/motion/motion.js';
import { tautPath, type Window } from '#core/motion/taut-string.js';
import type { Finger } from '#core/score/model.js';
import { SCALES, scale } from '../practice/handbook.js';
import { steps } from './arbitrary.js';
import { lineOf, melody, mirrored } from './lines.js';

const hand = handModel();
const NEAR = 1e-6;

const window = fc
  .tuple(
    fc.integer({ min: -100, max: 100 }),
    fc.integer({ min: 0, max: 60 }),
    fc.double({ min: 0, max: 1, noNaN: true }),
  )
  .map(([low, width, share]) => ({ low, high: low + width, rest: low + width * share }));

describe('the taut string', () => {
  it('keeps within its windows and bends only where a window bends it', () => {
    const apart = fc.constantFrom(0.1, 0.25, 1);
    fc.assert(
      fc.property(fc.array(fc.tuple(window, apart), { minLength: 1, maxLength: 40 }), (all) => {
        let time = 0;
        const at = (step: number) => {
          time += step;
          return time;
        };
        const windows: Window[] = all.map(([own, step]) => ({ ...own, time: at(step) }));
        const path = tautPath(windows);
        expect(path).toHaveLength(windows.length);
        expect(path[0]).toBeCloseTo(windows[0]!.rest, 6);
        for (const [at, { low, high, time: now }] of windows.entries()) {
          const x = path[at]!;
          expect(x).toBeGreaterThanOrEqual(low - NEAR);
          expect(x).toBeLessThanOrEqual(high + NEAR);
          if (at === 0) continue;
          const before = (x - path[at - 1]!) / (now - windows[at - 1]!.time);
          const next = windows[at + 1];
          // A free end is level.
          const after = next ? (path[at + 1]! - x) / (next.time - now) : 0;
          // Sufficient for the shortest path: the string bends only at a window's edge.
          if (after > before + NEAR) expect(x).toBeCloseTo(high, 5);
          if (after < before - NEAR) expect(x).toBeCloseTo(low, 5);
        }
      }),
    );
  });
});

describe('carry', () => {
  it('begins when the thumb is left, goes on with each finger and brings the arm clear of the thumb in every scale', () => {
    for (const side of ['right', 'left'] as const) {
      for (const key of Object.keys(SCALES[side])) {
        const { keys, digits } = scale(side, key);
        const up = keys.slice(0, 15);
        const { line, fingers } = melody(
          side,
          side === 'right' ? up : keys.slice(14),
          side === 'right' ? digits.slice(0, 15) : digits.slice(14),
          0.2,
        );
        const plan = planMotion(line, fingers, hand);
        expect(plan.findings, `${side} ${key}`).toEqual([]);
        const sense = side === 'right' ? 1 : -1;
        for (const slice of plan.slices.slice(1))
          expect(sense * slice.armChange).toBeGreaterThanOrEqual(-NEAR);
        const passing = plan.slices.filter((slice) => slice.crossing?.kind === 'thumb-passing');
        expect(passing.length).toBeGreaterThan(2);
        for (const slice of passing) {
          const thumb = slice.fingers.find((own) => own.finger === 1)!;
          // Never pulled under the palm: the arm leads the thumb by its least relaxed distance, three semitones.
          expect(sense * (slice.arm - keyX(thumb.key))).toBeGreaterThan(40);
        }
      }
    }
  });

  it('reports a thumb that has too far to go, or too little time', () => {
    const far = melody('right', [57, 59, 60, 62, 67], '12341', 0.3);
    const first = planMotion(far.line, far.fingers, hand).findings;
    expect(first).toHaveLength(1);
    expect(first[0]!.slice).toBe(4);
    expect(first[0]!.message).toMatch(/^too far: the arm has \d+ mm left to be clear of the thumb after 4$/);
    const fast = melody('right', [60, 62, 64, 65, 67], '12312', 0.03);
    expect(planMotion(fast.line, fast.fingers, hand).findings.map((own) => own.message)[0]).toMatch(
      /^too fast: .*mm a second$/,
    );
  });

  it('mirrors with the hands, as crossings, contour and roll do', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        const right = lineOf('right', all);
        const left = lineOf('left', mirrored(all));
        const [one, other] = [right, left].map(({ line, fingers }) => planMotion(line, fingers, hand));
        one!.slices.forEach((slice, at) => {
          const twin = other!.slices[at]!;
          expect(twin.arm).toBeCloseTo(-slice.arm, 6);
          expect(twin.contour).toBe(slice.contour);
          expect(twin.roll).toBeCloseTo(slice.roll, 9);
          expect(twin.rollPrepare).toBe(slice.rollPrepare);
          expect(twin.crossing?.kind).toBe(slice.crossing?.kind);
          expect(twin.crossing?.difficulty).toBe(slice.crossing?.difficulty);
          expect(twin.crossing === undefined || twin.crossing.direction !== slice.crossing!.direction).toBe(
            true,
          );
        });
        expect(other!.findings.map((own) => own.slice)).toEqual(one!.findings.map((own) => own.slice));
      }),
    );
  });
});

it('in uneven rhythm covers its way evenly in time', () => {
  // mm from D4. The thumb on C leaves the arm 17.6 to 72.5, 3 on E up to 58.5, the thumb on F wants 88.1: so the arm goes from the
  // middle of the first window, 45.04, to 58.5 while 2 plays between.
  const arm = (...seconds: readonly number[]) => {
    const steps = [60, 62, 64, 65].map((key, at) => ({
      keys: [key],
      fingers: [[1, 2, 3, 1][at] as Finger],
      seconds: seconds[at - 1] ?? 0,
    }));
    const { line, fingers } = lineOf('right', steps);
    return planCarry(line, fingersInUse(line, fingers), handModel()).map((mm) => Number(mm.toFixed(2)));
  };
  expect(arm(0.25, 0.25, 0.25)).toEqual([45.04, 51.77, 58.5, 88.13]);
  expect(arm(0.1, 0.3, 0.25)).toEqual([45.04, 48.41, 58.5, 88.13]);
  // With a second for the thumb nothing bends the way: 43.08 mm in 1.4 s.
  expect(arm(0.3, 0.1, 1)).toEqual([45.04, 54.27, 57.35, 88.13]);
  // Onsets less than 0.02 s apart count as 0.02.
  expect(arm(0.001, 0.06, 0.02)).toEqual([45.04, 48.41, 58.5, 88.13]);
});
