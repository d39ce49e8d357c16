import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { reasonText } from '#core/cues/reasons.js';
import { keyName } from '#core/keyboard/key-names.js';
import { blackNeighbours, freeWidth, isBlack } from '#core/keyboard/key-plan.js';
import { planMotion } from '#core/motion/motion.js';
import type { MotionPlan } from '#core/motion/plan.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';

/** Eighth notes at 120, 100 and 75 a minute. */
const PACES = [0.25, 0.3, 0.4];
const HANDS: readonly Hand[] = ['right', 'left'];
const hand = handModel();
/** mm of room beyond the black keys' front on E and C, of all keys beside one black key the most. */
const ROOMY = freeWidth(64);

const PITCHES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const SIGNS: Readonly<Record<string, number>> = { '': 0, '#': 1, b: -1 };

/** `G3 F#4 Bb3` */
const keysOf = (names: string): number[] =>
  names.split(' ').map((name) => {
    const [, step = '', sign = '', octave = ''] = /^([A-G])([#b]?)(\d)$/.exec(name) ?? [];
    return 12 * (Number(octave) + 1) + PITCHES[step]! + SIGNS[sign]!;
  });

function play(side: Hand, keys: readonly number[], digits: string, seconds: number): MotionPlan {
  const { line, fingers } = melody(side, keys, digits, seconds);
  return planMotion(line, fingers, hand);
}

const changes = (plan: MotionPlan): number[] => plan.slices.map((slice) => slice.depthChange);

function print(title: string, side: Hand, keys: readonly number[], digits: string, plan: MotionPlan): void {
  const cells = plan.slices.map((slice, at) => {
    const change = at === 0 ? `at ${slice.depth}` : `${slice.depthChange > 0 ? '+' : ''}${slice.depthChange}`;
    return `${digits[at]} ${keyName(keys[at]!)} ${change}${slice.lean ? ' (lean)' : ''}`;
  });
  console.log(`${title}, ${side} hand, mm: ${cells.join(' | ')}`);
}

/** From the thumb to the fifth finger. */
const OUTWARDS = { right: 1, left: -1 } as const;

/** The next white key in a direction. */
const whiteAfter = (key: number, way: number): number => (isBlack(key + way) ? key + 2 * way : key + way);
const whites = Array.from({ length: 48 }, (_, nth) => 36 + nth).filter((key) => !isBlack(key));

/** Three neighbouring white keys of which the second lies between two black keys and the third beside one. */
const groupsOf = (way: number) =>
  whites
    .map((first) => [first, whiteAfter(first, way), whiteAfter(whiteAfter(first, way), way)] as const)
    .filter(
      ([, second, third]) =>
        blackNeighbours(second) === 2 && blackNeighbours(third) === 1 && !isBlack(third + way),
    );

/**
 * What each hand finds on its own keys, in their order from the thumb. Black and white lie for the left hand going down
 * from A as they do for the right hand going up from G.
 */
const PASSAGES = {
  right: {
    scale: 'G3 A3 B3 C4 D4 E4 F#4 G4',
    between: 'A',
    turns: [
      ['D4 E4 F#4 E4 D4', '12321', '23432'],
      ['G3 A3 B3 C4 D4 E4 F#4 E4 D4 C4 B3 A3 G3', '1234123214321', '1231234321321'],
    ],
  },
  left: {
    scale: 'A4 G4 F4 E4 D4 C4 Bb3 A3',
    between: 'G',
    turns: [
      ['D4 C4 Bb3 C4 D4', '12321', '23432'],
      ['A4 G4 F4 E4 D4 C4 Bb3 C4 D4 E4 F4 G4 A4', '1234123214321', '1231234321321'],
    ],
  },
} as const;

describe.each(HANDS)('common practice, %s hand', (side) => {
  const way = OUTWARDS[side];
  const groups = groupsOf(way);
  const whiteAbove = (key: number): number => whiteAfter(key, way);
  const { scale, between, turns } = PASSAGES[side];
  const SCALE = keysOf(scale);

  it.each(PACES)(
    'the scale of one black key under 4: 2 and 3 come out, the thumb goes in; 2 less, 3 leans, 4 in; %s s a note',
    (pace) => {
      const plan = play(side, SCALE, '12312345', pace);
      print('one black key', side, SCALE, '12312345', plan);
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
      expect(reasonText(plan.slices[1]!.reason!, 'en')).toContain(`${between} lies between two black keys`);
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
      if (freeWidth(third) < ROOMY) expect(three).toBeLessThanOrEqual(0);
      expect(plan.slices[2]!.depth).toBeLessThan(plan.slices[3]!.depth);
      expect(passing).toBeGreaterThan(0);
    }
  });

  it.each(PACES)(
    'a black key under 4 holds 2 and 3 further in than a thumb to come does; %s s a note',
    (pace) => {
      for (const [first, second, third] of groups) {
        const [thumb, black] = [whiteAbove(third), third + 2 * way];
        if (!isBlack(black)) continue;
        const next = whiteAbove(black - way);
        const before = play(side, [first, second, third, thumb], '1231', pace);
        const keys = [first, second, third, black, next];
        const after = play(side, keys, '12341', pace);
        print('1234 to a black key', side, keys, '12341', after);
        expect(after.slices[1]!.depth).toBeGreaterThanOrEqual(before.slices[1]!.depth);
        expect(after.slices[2]!.depth).toBeGreaterThanOrEqual(before.slices[2]!.depth);
        expect(changes(after)[3]).toBeGreaterThan(0);
        // Only a third key as roomy as E lets 3 lean in.
        if (freeWidth(third) >= ROOMY) expect(changes(after)[2]).toBeGreaterThan(0);
      }
    },
  );

  it.each(PACES)(
    'a fragment that turns at a black key travels less with 3 there than with 4; %s s a note',
    (pace) => {
      for (const [names, three, four] of turns) {
        const keys = keysOf(names);
        const [withThree, withFour] = [play(side, keys, three, pace), play(side, keys, four, pace)];
        console.log(
          `${names}, ${side} hand: ${withThree.depthTravel} mm with 3 (${three}), ${withFour.depthTravel} mm with 4 (${four})`,
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
        const turn = middle + way * (isBlack(middle + way) ? 1 : 2);
        if (!isBlack(turn) || blackNeighbours(middle) !== 1) continue;
        const keys = [low, middle, turn, middle, low];
        const [withThree, withFour] = [play(side, keys, '12321', pace), play(side, keys, '23432', pace)];
        console.log(
          `${keys.map((key) => keyName(key)).join(' ')}, ${side}: ${withThree.depthTravel} mm, ${withFour.depthTravel} mm`,
        );
        expect(withThree.depthTravel).toBeLessThanOrEqual(withFour.depthTravel);
      }
    },
  );
});
