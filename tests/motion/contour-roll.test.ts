import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planMotion } from '#core/motion/motion.js';
import { planRoll } from '#core/motion/roll.js';
import type { Finger } from '#core/score/model.js';
import { SCALES, scale } from '../practice/handbook.js';
import { steps } from './arbitrary.js';
import { type Given, lineOf, melody, mirrored, type Step } from './lines.js';

const FINGER = fc.constantFrom<Finger>(1, 2, 3, 4, 5);
const hand = handModel();
const plan = ({ line, fingers }: Given) => planMotion(line, fingers, hand);

describe('contour', () => {
  it('rises with each finger between two thumbs and is level at the thumb, in every scale (common practice)', () => {
    for (const side of ['right', 'left'] as const) {
      for (const key of Object.keys(SCALES[side])) {
        const { keys, digits } = scale(side, key);
        const lastThumb = digits.lastIndexOf('1');
        plan(melody(side, keys, digits)).slices.forEach(({ contour }, at, all) => {
          if (digits[at] === '1' || at > lastThumb) expect(contour).toBe(0);
          else expect(contour).toBeGreaterThan(at > 0 ? all[at - 1]!.contour : 0);
        });
      }
    }
  });

  it('does so in arpeggios, less so at speed, and stays level where no thumb follows', () => {
    const arpeggio = [48, 52, 55, 60, 64, 67, 72];
    const slow = plan(melody('right', arpeggio, '1231235', 0.4)).slices.map((own) => own.contour);
    const quick = plan(melody('right', arpeggio, '1231235', 0.1)).slices.map((own) => own.contour);
    console.log(
      `arpeggio, wrist in mm: ${slow.join(' ')}; four times as fast: ${quick.map((mm) => mm.toFixed(1)).join(' ')}`,
    );
    expect(slow).toEqual([0, 3, 6, 0, 0, 0, 0]);
    expect(Math.max(...quick)).toBeLessThan(Math.max(...slow));
    expect(Math.max(...quick)).toBeGreaterThan(0);
  });

  it('stays within 12 mm and begins afresh after a rest', () => {
    fc.assert(
      fc.property(steps(30), (all) => {
        for (const { contour } of plan(lineOf('right', all)).slices) {
          expect(contour).toBeGreaterThanOrEqual(0);
          expect(contour).toBeLessThanOrEqual(12 + 1e-9);
        }
      }),
    );
    const rest = [2, 3, 2, 3, 1].map((finger, at) => ({
      keys: [62 + (at % 2)],
      fingers: [finger as 1 | 2 | 3],
      ...(at === 2 && { free: 0.5 }),
    }));
    expect(plan(lineOf('right', rest)).slices.map((own) => own.contour)).toEqual([0, 0, 3, 6, 0]);
  });
});

describe('contour in a trill', () => {
  it('is level, though a thumb follows', () => {
    const trill = plan(melody('right', [64, 65, 64, 65, 64, 62], '232321')).slices.map((own) => own.contour);
    expect(trill).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('is level under a key that goes down on the way, in either hand', () => {
    const held = [{ key: 71, finger: 5, since: 1 }] as const;
    const steps: readonly Step[] = [
      { keys: [64], fingers: [2] },
      { keys: [65, 71], fingers: [3, 5] },
      { keys: [64], fingers: [2], held },
      { keys: [65], fingers: [3], held },
      { keys: [62], fingers: [1], held },
    ];
    for (const [hand, own] of [
      ['right', steps],
      ['left', mirrored(steps)],
    ] as const)
      expect(plan(lineOf(hand, own)).slices.map(({ contour }) => contour)).toEqual([0, 0, 0, 0, 0]);
  });
});

describe('roll', () => {
  it('turns towards the playing finger and swings back by itself at the thumb (common practice)', () => {
    const { slices } = plan(melody('right', [60, 62, 64, 65, 67, 69, 71, 72], '12312345'));
    const rolls = slices.map((own) => own.roll);
    expect(rolls[0]).toBe(-1);
    expect(rolls[7]).toBe(1);
    expect(rolls[3]).toBe(rolls[0]);
    expect(slices.every((own) => !own.rollPrepare)).toBe(true);
  });

  it('needs a fresh preparation for a large turn on in one sense, none for a finger that repeats its key', () => {
    const repeated = plan(melody('right', [64, 64, 64], '333', 0.1)).slices.map((own) => own.rollPrepare);
    expect(repeated).toEqual([false, false, false]);
    const onwards = plan(melody('right', [60, 64, 71], '235', 0.1)).slices.map((own) => own.rollPrepare);
    expect(onwards).toEqual([false, false, true]);
  });

  it('is the same to the last bit in whatever order a chord’s keys come', () => {
    fc.assert(
      fc.property(fc.uniqueArray(FINGER, { minLength: 2 }), FINGER, (chord, next) => {
        const [one, other] = [chord, [...chord].reverse()].map((fingers) => {
          const { line } = melody('right', [60, 62], '11');
          const uses = [fingers, [next]].map((own) =>
            own.map((finger) => ({ finger, key: 60 + finger, struck: true })),
          );
          return planRoll(line, uses);
        });
        expect(other).toEqual(one);
      }),
      { numRuns: 500 },
    );
  });

  it('stays between its ends and takes the mean of a chord', () => {
    fc.assert(
      fc.property(steps(30), (all) => {
        for (const { roll } of plan(lineOf('right', all)).slices)
          expect(Math.abs(roll)).toBeLessThanOrEqual(1);
      }),
    );
    const chord = lineOf('right', [{ keys: [60, 67], fingers: [1, 5] }]);
    expect(plan(chord).slices[0]!.roll).toBe(0);
  });
});
