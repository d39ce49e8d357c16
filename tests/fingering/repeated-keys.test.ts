import { expect, it } from 'vitest';
import { fingerLine, handModel } from '#core/index.js';
import type { Hand } from '#core/score/model.js';
import { buildLine, even } from '../practice/passages/making/build-line.js';

const KEYS = Array.from({ length: 12 }, (_, nth) => 55 + nth);
/** Semitones of the keys of a broken chord from the first one, outwards. */
const CHORD = [0, 4, 7, 12];

/** Digits of keys struck three times each, so many notes a second, a group a beat. */
function digitsOf(hand: Hand, keys: readonly number[], rate: number): readonly (number | null)[] {
  const struck = keys.flatMap((key) => [key, key, key]);
  const line = buildLine(hand, even(struck, 1 / 3), { tempo: rate * 20 });
  return fingerLine(line, handModel()).fingering.slices.map(({ struck: [digit] }) => digit!);
}

it.each<[Hand, 1 | -1]>([
  ['right', 1],
  ['left', -1],
])('%s hand: fast groups on a key go towards the thumb and begin anew on the beat', (hand, outwards) => {
  for (const rate of [8, 11]) {
    for (const key of KEYS) {
      const keys = CHORD.map((semitones) => key + outwards * semitones);
      const digits = digitsOf(hand, keys, rate);
      const groups = keys.map((_, nth) => digits.slice(3 * nth, 3 * nth + 3));
      for (const [first, second, third] of groups) {
        expect(first, `${keys} by ${digits}`).toBeGreaterThan(second!);
        expect(second, `${keys} by ${digits}`).toBeGreaterThan(third!);
      }
    }
  }
});
