import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planMotion } from '#core/motion/motion.js';
import type { MotionPlan } from '#core/motion/plan.js';
import type { Finger, Hand } from '#core/score/model.js';
import { lineOf, melody } from '../motion/lines.js';

/*
 * Facts of the trade (common practice) that no number was tuned on, unlike those of facts.test.ts: change no number of
 * anatomy/ or motion/ for their sake. Each hand has its own notes.
 */

const hand = handModel();
const SPANS = ['small', 'medium', 'large'] as const;

const play = (side: Hand, keys: readonly number[], digits: string, seconds = 0.25): MotionPlan => {
  const { line, fingers } = melody(side, keys, digits, seconds);
  return planMotion(line, fingers, hand);
};
/** Depth of the forearm for keys struck together, lowest first. */
const depthOf = (side: Hand, keys: readonly number[], digits: string, span = 'medium'): number => {
  const { line, fingers } = lineOf(side, [
    { keys, fingers: [...digits].map((digit) => Number(digit) as Finger) },
  ]);
  return planMotion(line, fingers, handModel(span)).slices[0]!.depth;
};

describe('the outer fingers', () => {
  it.each(SPANS)('on a black key bring the hand further in than on a white key, %s hand', (span) => {
    for (const side of ['right', 'left'] as const) {
      for (const finger of ['1', '5']) {
        for (const [black, white] of [
          [61, 60],
          [63, 64],
          [66, 65],
          [68, 69],
          [70, 71],
        ] as const) {
          expect(depthOf(side, [black], finger, span)).toBeGreaterThan(depthOf(side, [white], finger, span));
        }
      }
    }
  });

  it('the thumb more than 5, and 5 more than 3', () => {
    for (const side of ['right', 'left'] as const) {
      const [thumb, fifth, third] = ['1', '5', '3'].map((finger) => depthOf(side, [66], finger));
      expect(thumb).toBeGreaterThan(fifth!);
      expect(fifth).toBeGreaterThan(third!);
    }
  });

  it('on the black keys of an octave bring the hand further in than on white ones', () => {
    expect(depthOf('right', [66, 78], '15')).toBeGreaterThan(depthOf('right', [65, 77], '15'));
    expect(depthOf('left', [42, 54], '51')).toBeGreaterThan(depthOf('left', [41, 53], '51'));
  });
});

describe('chords', () => {
  it.each<[string, Hand, readonly number[], readonly number[], string]>([
    ['G flat major against G major', 'right', [66, 70, 73], [67, 71, 74], '135'],
    ['G flat major against G major', 'left', [54, 58, 61], [55, 59, 62], '531'],
    ['B flat minor against B diminished', 'right', [70, 73, 77], [71, 74, 77], '135'],
    ['E flat minor against E minor', 'left', [51, 54, 58], [52, 55, 59], '531'],
    ['an octave chord of A flat against one of A minor', 'right', [68, 72, 75, 80], [69, 72, 76, 81], '1235'],
  ])(
    'with 1 or 5 on black lie further in than those on white: %s, %s hand',
    (_, side, black, white, digits) => {
      expect(depthOf(side, black, digits)).toBeGreaterThan(depthOf(side, white, digits));
    },
  );
});

describe('a hand that stays', () => {
  it.each<[string, Hand, readonly number[], string]>([
    ['a repeated key', 'right', [67, 67, 67, 67, 67, 67], '333333'],
    ['a trill on white keys', 'right', [76, 77, 76, 77, 76, 77, 76, 77], '23232323'],
    ['a trill on black keys', 'left', [56, 54, 56, 54, 56, 54, 56, 54], '23232323'],
    ['three black keys', 'right', [66, 68, 70, 68, 66], '23432'],
    ['three black keys', 'left', [58, 56, 54, 56, 58], '23432'],
  ])('has nowhere to go in depth: %s, %s hand', (_, side, keys, digits) => {
    expect(play(side, keys, digits).depthTravel).toBe(0);
  });
});

it('a chromatic run travels less in depth for its notes than the scale of C, 1 and 3 in turn', () => {
  // From C, 3 on every black key, 1 on white and 2 on the second of two white keys: common practice.
  const up = Array.from({ length: 13 }, (_, nth) => 60 + nth);
  const chromatic = play('right', up, '1313123131312');
  const scale = play('right', [60, 62, 64, 65, 67, 69, 71, 72], '12312345');
  console.log(`chromatic ${chromatic.depthTravel} mm in 12 steps, C major ${scale.depthTravel} mm in 7`);
  expect(chromatic.depthTravel / 12).toBeLessThan(scale.depthTravel / 7);
  const down = Array.from({ length: 13 }, (_, nth) => 64 - nth);
  const left = play('left', down, '1313123131312');
  const leftScale = play('left', [60, 59, 57, 55, 53, 52, 50, 48], '12312345');
  expect(left.depthTravel / 12).toBeLessThan(leftScale.depthTravel / 7);
});

it('five fingers with the thumb on a black key lie further in than with it on a white key', () => {
  const depths = (side: Hand, keys: readonly number[]) =>
    play(side, keys, '12345').slices.map(({ depth }) => depth);
  const least = (own: readonly number[]) => Math.min(...own);
  // D flat, E flat, F, G flat, A flat against C to G; the left hand down from A flat against down from G.
  expect(least(depths('right', [61, 63, 65, 66, 68]))).toBeGreaterThan(
    least(depths('right', [60, 62, 64, 65, 67])),
  );
  expect(least(depths('left', [68, 66, 65, 63, 61]))).toBeGreaterThan(
    least(depths('left', [67, 65, 64, 62, 60])),
  );
});
