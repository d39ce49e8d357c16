import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planMotion } from '#core/motion/motion.js';
import { steps } from './arbitrary.js';
import { type Given, lineOf, melody } from './lines.js';

const hand = handModel();
const plan = ({ line, fingers }: Given) => planMotion(line, fingers, hand);

describe('reasons', () => {
  it('name the finger, the move and what the key is', () => {
    const { slices } = plan(melody('right', [55, 57, 59, 60, 62, 64, 66, 67], '12312345'));
    console.log(
      slices
        .map((slice) => slice.reason)
        .filter(Boolean)
        .join('\n'),
    );
    expect(slices.map((slice) => slice.reason)).toEqual([
      '',
      '2 comes out: A lies between two black keys',
      '3 comes out: B has a black key beside it',
      'the thumb goes in: it is short and needs a hold on C',
      '2 comes out: D lies between two black keys',
      '3 moves in, ready for 4: F♯/G♭ is a black key',
      '4 goes in: F♯/G♭ is a black key',
      '',
    ]);
  });

  it('are given wherever the depth changes, and nowhere else', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        for (const { depthChange, reason } of plan(lineOf('right', all)).slices) {
          expect(reason === '').toBe(depthChange === 0);
        }
      }),
    );
  });
});

describe('the state of every slice', () => {
  it('adds up: changes to depths, depths to the travel, tips and curls to each finger in use', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        const given = lineOf('right', all);
        const { slices, depthTravel } = plan(given);
        expect(slices).toHaveLength(all.length);
        let travel = 0;
        slices.forEach((slice, at) => {
          const before = slices[at - 1] ?? slice;
          expect(slice.depthChange).toBe(slice.depth - before.depth);
          expect(slice.armChange).toBeCloseTo(slice.arm - before.arm, 9);
          travel += Math.abs(slice.depthChange);
          expect(slice.fingers.map((own) => own.finger)).toEqual([...all[at]!.fingers]);
          expect(slice.fingers.map((own) => own.key)).toEqual([...all[at]!.keys]);
          if (slice.lean) expect(slice.depthChange).toBeGreaterThan(0);
        });
        expect(depthTravel).toBe(travel);
      }),
    );
  });

  it('passes through keys that no finger can play, and through an empty line', () => {
    const given = melody('right', [60, 62, 64], '123');
    const gaps = {
      slices: [given.fingers.slices[0]!, { struck: [null], held: [] }, given.fingers.slices[2]!],
    };
    const { slices } = planMotion(given.line, gaps, hand);
    expect(slices[1]!.fingers).toEqual([]);
    for (const slice of slices) expect(Number.isFinite(slice.depth + slice.arm + slice.roll)).toBe(true);
    const none = planMotion(given.line, { slices: [] }, hand);
    expect(none.slices.every((slice) => Number.isFinite(slice.depth + slice.arm))).toBe(true);
    expect(none.depthTravel).toBe(0);
    expect(planMotion(lineOf('right', []).line, { slices: [] }, hand)).toEqual({
      slices: [],
      findings: [],
      depthTravel: 0,
    });
  });

  it('counts held fingers: a thumb held deep among the black keys keeps the arm in', () => {
    const free = plan(melody('right', [61, 62], '12')).slices[1]!.depth;
    const held = plan(
      lineOf('right', [
        { keys: [61], fingers: [1] },
        { keys: [62], fingers: [2], held: [{ key: 61, finger: 1, since: 0 }] },
      ]),
    ).slices[1]!;
    expect(held.fingers.map((own) => own.finger)).toEqual([2, 1]);
    expect(held.depth).toBeGreaterThan(free + 20);
  });
});
