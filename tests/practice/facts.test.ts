import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { reasonText } from '#core/cues/reasons.js';
import { pitchClassName } from '#core/keyboard/key-names.js';
import { blackNeighbours, freeWidth, isBlack, mirrorKey } from '#core/keyboard/key-plan.js';
import { planMotion } from '#core/motion/motion.js';
import type { MotionPlan } from '#core/motion/plan.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';

/** Eighth notes at 120, 100 and 75 a minute. */
const PACES = [0.25, 0.3, 0.4];
const HANDS: readonly Hand[] = ['right', 'left'];
const hand = handModel();
const E4 = 64;

/** The right hand's keys as written, the left hand's mirrored about D. */
function play(side: Hand, keys: readonly number[], digits: string, seconds: number): MotionPlan {
  const own = side === 'right' ? keys : keys.map(mirrorKey);
  const { line, fingers } = melody(side, own, digits, seconds);
  return planMotion(line, fingers, hand);
}

const changes = (plan: MotionPlan): number[] => plan.slices.map((slice) => slice.depthChange);

function print(title: string, side: Hand, keys: readonly number[], digits: string, plan: MotionPlan): void {
  const own = side === 'right' ? keys : keys.map(mirrorKey);
  const cells = plan.slices.map((slice, at) => {
    const change = at === 0 ? `at ${slice.depth}` : `${slice.depthChange > 0 ? '+' : ''}${slice.depthChange}`;
    return `${digits[at]} ${pitchClassName(own[at]!)} ${change}${slice.lean ? ' (lean)' : ''}`;
  });
  console.log(`${title}, ${side} hand, mm: ${cells.join(' | ')}`);
}

/** The next white key above. */
const whiteAbove = (key: number): number => (isBlack(key + 1) ? key + 2 : key + 1);
const whites = Array.from({ length: 48 }, (_, nth) => 36 + nth).filter((key) => !isBlack(key));

/** Three neighbouring white keys of which the second lies between two black keys and the third beside one. */
const groups = whites
  .map((first) => [first, whiteAbove(first), whiteAbove(whiteAbove(first))] as const)
  .filter(
    ([, second, third]) =>
      blackNeighbours(second) === 2 && blackNeighbours(third) === 1 && !isBlack(third + 1),
  );

describe.each(HANDS)('common practice, %s hand', (side) => {
  // G major from the tonic upwards, and what mirrors it for the left hand: A, G, F ... downwards.
  const G_MAJOR = [55, 57, 59, 60, 62, 64, 66, 67] as const;

  it.each(PACES)(
    'G major: 2 and 3 come out, the thumb goes in; 2 less, 3 leans, 4 in; %s s a note',
    (pace) => {
      const plan = play(side, G_MAJOR, '12312345', pace);
      print('G major', side, G_MAJOR, '12312345', plan);
      const [, two, three, thumb, two2, three2, four2] = changes(plan) as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      expect(two).toBeLessThan(0);
      expect(three).toBeLessThan(0);
      expect(thumb).toBeGreaterThan(0);
      expect(two2).toBeLessThan(0);
      expect(-two2).toBeLessThan(-two);
      expect(three2).toBeGreaterThan(0);
      expect(plan.slices[5]!.lean).toBe(true);
      expect(four2).toBeGreaterThan(three2);
      expect(reasonText(plan.slices[6]!.reason!, 'en')).toContain('is a black key');
      expect(reasonText(plan.slices[1]!.reason!, 'en')).toContain(
        `${pitchClassName(side === 'right' ? 57 : 67)} lies between two black keys`,
      );
      expect(plan.findings).toEqual([]);
    },
  );

  it.each(PACES)('the same out and in wherever the pattern of the keys is the same; %s s a note', (pace) => {
    for (const [first, second, third] of groups) {
      const thumb = whiteAbove(third);
      const keys = [first, second, third, thumb];
      const plan = play(side, keys, '1231', pace);
      print('1231 on white', side, keys, '1231', plan);
      const [, two, three, passing] = changes(plan) as [number, number, number, number];
      expect(two).toBeLessThan(0);
      // A third key as roomy as E lets 3 move in again before the thumb.
      if (freeWidth(third) < freeWidth(E4)) expect(three).toBeLessThanOrEqual(0);
      expect(plan.slices[2]!.depth).toBeLessThan(plan.slices[3]!.depth);
      expect(passing).toBeGreaterThan(0);
    }
  });

  it.each(PACES)(
    'a black key under 4 holds 2 and 3 further in than a thumb to come does; %s s a note',
    (pace) => {
      for (const [first, second, third] of groups) {
        const [thumb, black] = [whiteAbove(third), third + 2];
        if (!isBlack(black)) continue;
        const next = whiteAbove(black - 1);
        const before = play(side, [first, second, third, thumb], '1231', pace);
        const keys = [first, second, third, black, next];
        const after = play(side, keys, '12341', pace);
        print('1234 to a black key', side, keys, '12341', after);
        expect(after.slices[1]!.depth).toBeGreaterThanOrEqual(before.slices[1]!.depth);
        expect(after.slices[2]!.depth).toBeGreaterThanOrEqual(before.slices[2]!.depth);
        expect(changes(after)[3]).toBeGreaterThan(0);
        // Only a third key as roomy as E lets 3 lean in.
        if (freeWidth(third) >= freeWidth(E4)) expect(changes(after)[2]).toBeGreaterThan(0);
      }
    },
  );

  it.each(PACES)(
    'a fragment that turns at F sharp travels less with 3 there than with 4; %s s a note',
    (pace) => {
      const fragments = [
        { keys: [62, 64, 66, 64, 62], three: '12321', four: '23432' },
        {
          keys: [55, 57, 59, 60, 62, 64, 66, 64, 62, 60, 59, 57, 55],
          three: '1234123214321',
          four: '1231234321321',
        },
      ];
      for (const { keys, three, four } of fragments) {
        const [withThree, withFour] = [play(side, keys, three, pace), play(side, keys, four, pace)];
        console.log(
          `turn at ${pitchClassName(side === 'right' ? 66 : mirrorKey(66))}, ${side} hand: ` +
            `${withThree.depthTravel} mm with 3 (${three}), ${withFour.depthTravel} mm with 4 (${four})`,
        );
        expect(withThree.depthTravel).toBeLessThan(withFour.depthTravel);
      }
    },
  );

  it.each(PACES)(
    'so does every turn at a black key after a white key with room on one side; %s s',
    (pace) => {
      for (const low of whites) {
        const middle = whiteAbove(low);
        const turn = middle + (isBlack(middle + 1) ? 1 : 2);
        if (!isBlack(turn) || blackNeighbours(middle) !== 1) continue;
        const keys = [low, middle, turn, middle, low];
        const [withThree, withFour] = [play(side, keys, '12321', pace), play(side, keys, '23432', pace)];
        console.log(
          `${keys.map((key) => pitchClassName(key)).join(' ')}, ${side}: ${withThree.depthTravel} mm, ${withFour.depthTravel} mm`,
        );
        expect(withThree.depthTravel).toBeLessThanOrEqual(withFour.depthTravel);
      }
    },
  );
});
