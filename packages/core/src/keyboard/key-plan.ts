/**
 * The key plan: where every key lies, in mm. x grows towards the treble with x = 0 at the centre of D4, the key about
 * which the pattern mirrors itself; y is the depth, 0 at the keys' front edge, growing towards the fallboard.
 */

/** MIDI numbers of A0, C8 and D4. */
export const LOWEST_KEY = 21;
export const HIGHEST_KEY = 108;
export const MIRROR_KEY = 62;

/** Width of a white key at its front; seven make the octave of 164.5 mm. DIN 8996, from memory. */
export const WHITE_WIDTH = 23.5;
export const OCTAVE_WIDTH = 7 * WHITE_WIDTH;
/** Mean sideways distance of a semitone. */
export const SEMITONE_WIDTH = OCTAVE_WIDTH / 12;
/** Widths of a black key at its foot and on top: from memory, within the 9-11 mm on top of the trade's keys. */
export const BLACK_FOOT_WIDTH = 13.7;
export const BLACK_TOP_WIDTH = 10;
/** Depth at which the black keys begin, and the fallboard: from memory (about 50 mm of about 150 mm). */
export const BLACK_FRONT = 50;
export const FALLBOARD = 148;

/**
 * Tail widths follow from one assumption that makers strive for: within C-E the three white tails are equally wide,
 * within F-B the four. It puts C sharp and F sharp left, D sharp and A sharp right, G sharp in the middle.
 */
const TAIL_OF_THREE = (3 * WHITE_WIDTH - 2 * BLACK_FOOT_WIDTH) / 3;
const TAIL_OF_FOUR = (4 * WHITE_WIDTH - 3 * BLACK_FOOT_WIDTH) / 4;
const THREE_START = -1.5 * WHITE_WIDTH;
const FOUR_START = 1.5 * WHITE_WIDTH;

function blackCentre(start: number, tail: number, nth: number): number {
  return start + nth * tail + (nth - 0.5) * BLACK_FOOT_WIDTH;
}

interface KeyClass {
  readonly black: boolean;
  /** Centre relative to the D of the octave, mm. */
  readonly x: number;
}

const white = (steps: number): KeyClass => ({ black: false, x: steps * WHITE_WIDTH });

/** By semitones above D: the octave runs D ... C sharp. */
const CLASSES: readonly KeyClass[] = [
  white(0),
  { black: true, x: blackCentre(THREE_START, TAIL_OF_THREE, 2) },
  white(1),
  white(2),
  { black: true, x: blackCentre(FOUR_START, TAIL_OF_FOUR, 1) },
  white(3),
  { black: true, x: blackCentre(FOUR_START, TAIL_OF_FOUR, 2) },
  white(4),
  { black: true, x: blackCentre(FOUR_START, TAIL_OF_FOUR, 3) },
  white(5),
  white(6),
  { black: true, x: blackCentre(THREE_START, TAIL_OF_THREE, 1) + OCTAVE_WIDTH },
];

function classOf(key: number): KeyClass {
  return CLASSES[pitchClass(key - MIRROR_KEY)]!;
}

/** Semitones above C, 0 ... 11, whatever the octave. */
export function pitchClass(key: number): number {
  return ((key % 12) + 12) % 12;
}

export function isBlack(key: number): boolean {
  return classOf(key).black;
}

/** Sideways centre of a key in mm from the centre of D4; for a white key the centre of its front. */
export function keyX(key: number): number {
  return Math.floor((key - MIRROR_KEY) / 12) * OCTAVE_WIDTH + classOf(key).x;
}

/** The key mirrored about D4: same colour, opposite side. */
export function mirrorKey(key: number): number {
  return 2 * MIRROR_KEY - key;
}

/** Black keys beside a white one: 2 for D, G, A, 1 for the other white keys; 0 for black keys. */
export function blackNeighbours(key: number): 0 | 1 | 2 {
  if (isBlack(key)) return 0;
  return isBlack(key - 1) && isBlack(key + 1) ? 2 : 1;
}

/** mm by which the round side of a fingertip may hang over a neighbouring white key without pressing it: from memory. */
const OVERHANG = 4.2;

/**
 * Free width in mm for a fingertip on a white key beyond `BLACK_FRONT`: between two black tops, or from one black top
 * to the edge towards the neighbouring white key, which a fingertip may overhang a little. Infinity for black.
 */
export function freeWidth(key: number): number {
  if (isBlack(key)) return Number.POSITIVE_INFINITY;
  const side = (step: 1 | -1): number => {
    if (isBlack(key + step)) return Math.abs(keyX(key + step) - keyX(key)) - BLACK_TOP_WIDTH / 2;
    return WHITE_WIDTH / 2 + OVERHANG;
  };
  return side(-1) + side(1);
}
