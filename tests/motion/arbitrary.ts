import fc from 'fast-check';
import type { Finger } from '#core/score/model.js';
import type { Step } from './lines.js';

const finger = fc.constantFrom<Finger>(1, 2, 3, 4, 5);
/** Keys away from both ends, so that mirroring and octaves stay on the keyboard. */
const key = fc.integer({ min: 45, max: 79 });
const seconds = fc.constantFrom(0.08, 0.15, 0.25, 0.5, 1.2);

/** One note or a chord of two or three, any digits in ascending order, now and then a rest or a new phrase. */
const step: fc.Arbitrary<Step> = fc
  .record({
    keys: fc.uniqueArray(key, { minLength: 1, maxLength: 3 }),
    fingers: fc.uniqueArray(finger, { minLength: 3, maxLength: 3 }),
    seconds,
    free: fc.constantFrom(0, 0, 0, 0.05, 0.3),
    phraseStart: fc.constantFrom(false, false, false, true),
  })
  .map(({ keys, fingers, ...rest }) => ({
    ...rest,
    keys: [...keys].sort((a, b) => a - b),
    fingers: fingers.slice(0, keys.length).sort((a, b) => a - b),
  }));

/** Steps of a right hand's line. */
export function steps(most: number): fc.Arbitrary<readonly Step[]> {
  return fc.array(step, { minLength: 1, maxLength: most });
}
