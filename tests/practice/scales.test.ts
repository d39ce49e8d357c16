import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planMotion } from '#core/motion/motion.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';
import { SCALES, scale } from './handbook.js';

const HANDS: readonly Hand[] = ['right', 'left'];

/** Depth travel of the twelve major scales, two octaves up and down, least first. */
function order(hand: Hand, seconds: number): { key: string; travel: number }[] {
  return Object.keys(SCALES[hand])
    .map((key) => {
      const { keys, digits } = scale(hand, key);
      const { line, fingers } = melody(hand, keys, digits, seconds);
      const plan = planMotion(line, fingers, handModel());
      return { key, travel: plan.depthTravel };
    })
    .sort((a, b) => a.travel - b.travel);
}

/**
 * Chopin had his pupils begin with B major, because it puts the long fingers on black keys, went on to the scales with
 * fewer black keys and left C major, the hardest for him, to the end: Eigeldinger, Chopin: Pianist and Teacher (1986), from
 * memory.
 */
describe("Chopin's order of teaching the scales", () => {
  it.each(HANDS)('%s hand: the scales of five black keys travel least, C among the most', (hand) => {
    for (const seconds of [0.25, 0.3, 0.4]) {
      const all = order(hand, seconds);
      console.log(
        `${hand}, ${seconds} s a note, mm: ${all.map(({ key, travel }) => `${key} ${travel}`).join(' < ')}`,
      );
      const travel = Object.fromEntries(all.map((own) => [own.key, own.travel]));
      const least = hand === 'right' ? ['B', 'D flat', 'G flat'] : ['D flat', 'G flat'];
      expect(
        all
          .slice(0, least.length)
          .map((own) => own.key)
          .sort(),
      ).toEqual([...least].sort());
      // The left hand finds in D flat what the right finds in B: 2, 3 and 4 on three black keys, 2 and 3 on two.
      expect(travel[hand === 'right' ? 'B' : 'D flat']).toBe(all[0]!.travel);
      expect(all.slice(-4).map((own) => own.key)).toContain('C');
      expect(travel.C).toBeGreaterThan(3 * (travel.B ?? 0) + 50);
    }
  });
});
