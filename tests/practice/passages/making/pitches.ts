import type { Hand } from '#core/index.js';
import type { Span } from '../passage.js';
import type { Draw } from './draw.js';

export type Mode = 'major' | 'natural minor' | 'harmonic minor' | 'melodic minor';

export const MODES: Readonly<Record<Mode, readonly number[]>> = {
  major: [0, 2, 4, 5, 7, 9, 11],
  'natural minor': [0, 2, 3, 5, 7, 8, 10],
  'harmonic minor': [0, 2, 3, 5, 7, 8, 11],
  'melodic minor': [0, 2, 3, 5, 7, 9, 11],
};

/** Semitones above the root. */
export const TRIADS = {
  major: [0, 4, 7],
  minor: [0, 3, 7],
  diminished: [0, 3, 6],
  augmented: [0, 4, 8],
} as const;

export const SEVENTHS = {
  major: [0, 4, 7, 11],
  dominant: [0, 4, 7, 10],
  minor: [0, 3, 7, 10],
  'half-diminished': [0, 3, 6, 10],
  diminished: [0, 3, 6, 9],
} as const;

/** Key of a scale degree: 0 the tonic, 7 its octave; `low` the tonic's key. */
export function degree(low: number, mode: Mode, nth: number): number {
  const steps = MODES[mode];
  const octave = Math.floor(nth / 7);
  return low + 12 * octave + steps[nth - 7 * octave]!;
}

/** Triad or seventh on a scale degree, close position, so often inverted. */
export function chordOn(low: number, mode: Mode, root: number, tones: number, inversion = 0): number[] {
  const keys = Array.from({ length: tones }, (_, nth) => degree(low, mode, root + 2 * nth));
  return invert(keys, inversion);
}

/** A close chord turned upwards, or downwards where `times` is negative. */
export function invert(keys: readonly number[], times: number): number[] {
  let own = [...keys];
  for (let nth = 0; nth < Math.abs(times); nth++) {
    own = times > 0 ? [...own.slice(1), own[0]! + 12] : [own.at(-1)! - 12, ...own.slice(0, -1)];
  }
  return own;
}

/** The lowest key of a pitch class at or above the hand's usual place. */
export function lowTonic(tonic: number, hand: Hand, octave = 0): number {
  const from = (hand === 'right' ? 58 : 40) + 12 * octave;
  return from + ((((tonic - from) % 12) + 12) % 12);
}

/** Mostly medium hands, every third passage a small or a large one. */
export function drawSpan(draw: Draw): Span {
  return draw.pick(['medium', 'medium', 'medium', 'medium', 'small', 'large'] as const);
}

/**
 * Tempo from 40 to 200 and the length of a note, so that between `slow` and `fast` notes a second are played.
 */
export function drawPace(
  draw: Draw,
  units: readonly number[],
  fast = 12,
  slow = 0.6,
): { tempo: number; unit: number } {
  for (;;) {
    const tempo = 4 * draw.int(10, 50);
    const unit = draw.pick(units);
    const rate = tempo / 60 / unit;
    if (rate <= fast && rate >= slow) return { tempo, unit };
  }
}
