import { describe, expect, it } from 'vitest';
import { fingerLine, handModel } from '#core/index.js';
import type { Hand } from '#core/score/model.js';
import { buildLine, even } from '../practice/passages/making/build-line.js';

const KEYS = Array.from({ length: 12 }, (_, nth) => 55 + nth);
/** Semitones from the first key on: one key, a broken chord outwards, a scale outwards and inwards. */
const LINES = [
  [0, 0, 0, 0],
  [0, 4, 7, 12],
  [0, 2, 4, 5],
  [5, 4, 2, 0],
];

/** Digits of keys struck so many times each, so many notes a second, a group a beat. */
function digitsOf(hand: Hand, keys: readonly number[], strokes: number, rate: number): readonly number[] {
  const struck = keys.flatMap((key) => new Array<number>(strokes).fill(key));
  const line = buildLine(hand, even(struck, 1 / strokes), { tempo: (rate * 60) / strokes });
  return fingerLine(line, handModel()).fingering.slices.map(({ struck: [digit] }) => digit!);
}

describe.each<[Hand, 1 | -1]>([
  ['right', 1],
  ['left', -1],
])('%s hand', (hand, outwards) => {
  it.each([3, 4])('fast groups of %i on a key go towards the thumb and begin anew on the beat', (strokes) => {
    for (const rate of [8, 11]) {
      for (const key of KEYS) {
        for (const line of LINES) {
          const keys = line.map((semitones) => key + outwards * semitones);
          const digits = digitsOf(hand, keys, strokes, rate);
          for (let at = 1; at < digits.length; at++) {
            if (at % strokes > 0) expect(digits[at], `${keys} by ${digits}`).toBeLessThan(digits[at - 1]!);
          }
        }
      }
    }
  });
});

it('a key repeated fast changes its finger at every stroke or never', () => {
  for (const hand of ['right', 'left'] as const) {
    for (const key of KEYS) {
      for (const strokes of [3, 4]) {
        for (const [groups, rate] of [
          [2, 5],
          [4, 6],
          [3, 8],
        ] as const) {
          const digits = digitsOf(hand, new Array<number>(groups).fill(key), strokes, rate);
          const changes = digits.filter((digit, at) => at > 0 && digit !== digits[at - 1]).length;
          expect([0, digits.length - 1], `${key} by ${digits}`).toContain(changes);
        }
      }
    }
  }
});
