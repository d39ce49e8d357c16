import type { Hand } from '#core/score/model.js';

/** Semitones of one octave of the major scale, tonic to tonic. */
export const MAJOR = [0, 2, 4, 5, 7, 9, 11, 12] as const;

/**
 * Handbook fingerings of the twelve major scales, one octave upwards from the tonic, the last digit being that of the
 * octave when the scale goes on: C.-L. Hanon, The Virtuoso Pianist (1873), No. 39, from memory. For checks only.
 */
export const SCALES: Readonly<Record<Hand, Readonly<Record<string, string>>>> = {
  right: {
    C: '12312341',
    G: '12312341',
    D: '12312341',
    A: '12312341',
    E: '12312341',
    B: '12312341',
    'G flat': '23412312',
    'D flat': '23123412',
    'A flat': '34123123',
    'E flat': '31234123',
    'B flat': '41231234',
    F: '12341231',
  },
  left: {
    C: '14321321',
    G: '14321321',
    D: '14321321',
    A: '14321321',
    E: '14321321',
    B: '13214321',
    'G flat': '43213214',
    'D flat': '32143213',
    'A flat': '32143213',
    'E flat': '32143213',
    'B flat': '32143213',
    F: '14321321',
  },
};

/** Digits at the lower and upper end, where the scale does not go on; a space where they are the same. */
const OUTER: Readonly<Record<Hand, Readonly<Record<string, string>>>> = {
  right: { C: ' 5', G: ' 5', D: ' 5', A: ' 5', E: ' 5', B: ' 5', 'B flat': '2 ', F: ' 4' },
  left: { C: '5 ', G: '5 ', D: '5 ', A: '5 ', E: '5 ', F: '5 ', B: '4 ' },
};

const PITCH: Readonly<Record<string, number>> = {
  C: 0,
  'D flat': 1,
  D: 2,
  'E flat': 3,
  E: 4,
  F: 5,
  'G flat': 6,
  G: 7,
  'A flat': 8,
  A: 9,
  'B flat': 10,
  B: 11,
};

/** Two octaves up and down with the handbook's digits. */
export function scale(hand: Hand, key: string): { keys: number[]; digits: string } {
  const tonic = 48 + PITCH[key]!;
  const up = [0, 12].flatMap((octave) => MAJOR.slice(0, 7).map((step) => tonic + octave + step));
  const one = SCALES[hand][key]!;
  const [lower = ' ', upper = ' '] = OUTER[hand][key] ?? '';
  const digits = [...one.slice(0, 7), ...one.slice(7), ...one.slice(1)];
  const first = lower.trim() || digits[0]!;
  const last = upper.trim() || digits.at(-1)!;
  const ascending = [first, ...digits.slice(1, -1), last];
  const keys = [...up, tonic + 24];
  return {
    keys: [...keys, ...keys.slice(0, -1).reverse()],
    digits: [...ascending, ...ascending.slice(0, -1).reverse()].join(''),
  };
}
