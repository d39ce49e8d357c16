import type { Finger } from '#core/score/model.js';

/*
 * What two fingers reach, stated once more to judge the library's own: Parncutt, Sloboda, Clarke, Raekallio and Desain, An
 * ergonomic model of keyboard fingering for melodic fragments, Music Perception 14 (1997), table of finger-pair spans, from
 * memory; and the key plan of DIN 8996, from memory.
 */

/** mm */
const WHITE = 23.5;
const SEMITONE = (7 * WHITE) / 12;
/** mm at the foot of a black key. */
const BLACK = 13.7;

/** By pair, semitones: practical, comfortable and relaxed minimum, relaxed, comfortable and practical maximum. */
export const SPANS: Readonly<Record<string, readonly [number, number, number, number, number, number]>> = {
  '1-2': [-5, -3, 1, 5, 8, 10],
  '1-3': [-4, -2, 3, 7, 10, 12],
  '1-4': [-3, -1, 5, 9, 12, 14],
  '1-5': [-1, 1, 7, 10, 13, 15],
  '2-3': [1, 1, 1, 2, 3, 5],
  '2-4': [1, 1, 3, 4, 5, 7],
  '2-5': [2, 2, 5, 6, 8, 10],
  '3-4': [1, 1, 1, 2, 2, 4],
  '3-5': [1, 1, 3, 4, 5, 7],
  '4-5': [1, 1, 1, 2, 3, 5],
};

/** mm by span, of which the medium one is stated. */
const MEDIUM = 206;

/** Least and greatest distance in mm from the lower to the higher finger: only the maxima grow with the hand. */
export function practical(low: Finger, high: Finger, span: number): readonly [least: number, most: number] {
  const row = SPANS[`${low}-${high}`]!;
  return [row[0] * SEMITONE, (row[5] * SEMITONE * span) / MEDIUM];
}

/** White keys from C by semitone, and black keys by the group that they stand in: of two, or of three. */
const WHITES: readonly (number | undefined)[] = [
  0,
  undefined,
  1,
  undefined,
  2,
  3,
  undefined,
  4,
  undefined,
  5,
  undefined,
  6,
];
const GROUPS: Readonly<Record<number, readonly [firstWhite: number, whites: number, nth: number]>> = {
  1: [0, 3, 1],
  3: [0, 3, 2],
  6: [3, 4, 1],
  8: [3, 4, 2],
  10: [3, 4, 3],
};

/** mm from the left edge of C in octave -1 to a key's centre; between black keys the white ones are equally wide. */
export function centre(key: number): number {
  const octave = Math.floor(key / 12) * 7 * WHITE;
  const white = WHITES[key % 12];
  if (white !== undefined) return octave + (white + 0.5) * WHITE;
  const [firstWhite, whites, nth] = GROUPS[key % 12]!;
  const tail = (whites * WHITE - (whites - 1) * BLACK) / whites;
  return octave + firstWhite * WHITE + nth * tail + (nth - 0.5) * BLACK;
}

export function black(key: number): boolean {
  return WHITES[key % 12] === undefined;
}
