import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import { planMotion } from '#core/motion/motion.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';

const PACES = [0.25, 0.3, 0.4];
const SIDES: readonly Hand[] = ['right', 'left'];
const CASES = SIDES.flatMap((side) => ['small', 'large'].map((size) => [size, side] as const));
const G_MAJOR = [55, 57, 59, 60, 62, 64, 66, 67];

/**
 * Common practice, as far as it holds for hands of other sizes. What does not: a small hand's first 3 leans in instead
 * of coming out, a large hand's second 3 comes out a little instead of leaning in, and not every turn at a black key
 * takes a large hand less with 3 than with 4.
 */
describe.each(CASES)('a %s %s hand', (size, side) => {
  const play = (keys: readonly number[], digits: string, pace: number) => {
    const own = side === 'right' ? keys : keys.map(mirrorKey);
    const { line, fingers } = melody(side, own, digits, pace);
    return planMotion(line, fingers, handModel(size));
  };

  it.each(PACES)(
    'G major: 2 comes out, the thumb goes in, 2 comes out less, 4 goes in; %s s a note',
    (pace) => {
      const changes = play(G_MAJOR, '12312345', pace).slices.map((slice) => slice.depthChange);
      console.log(`G major, ${size} ${side} hand, mm: ${changes.join(' ')}`);
      const [, two, , thumb, two2, , four] = changes;
      expect(two).toBeLessThan(0);
      expect(thumb).toBeGreaterThan(0);
      expect(two2).toBeLessThan(0);
      expect(two2).toBeGreaterThan(two!);
      expect(four).toBeGreaterThan(0);
    },
  );

  it.each(PACES)(
    'a fragment that turns at F sharp travels less with 3 there than with 4; %s s a note',
    (pace) => {
      const keys = [...G_MAJOR.slice(0, 7), ...G_MAJOR.slice(0, 6).reverse()];
      const three = play(keys, '1234123214321', pace).depthTravel;
      const four = play(keys, '1231234321321', pace).depthTravel;
      console.log(`turn, ${size} ${side} hand: ${three} mm with 3, ${four} mm with 4`);
      expect(three).toBeLessThan(four);
    },
  );
});
