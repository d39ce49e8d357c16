import { optionError } from '../../score/errors.js';
import type { Exercise } from '../sheet.js';
import type { Ladder } from '../theory/keys.js';
import {
  asExercises,
  inverted,
  type Motion,
  type Place,
  reach,
  shifted,
  stepsOn,
  thereAndBack,
} from './ladder-lines.js';
import { middleOctave } from './range.js';

export const DISTANCES = ['octave', 'third', 'sixth', 'tenth'] as const;
export type Distance = (typeof DISTANCES)[number];
export const DOUBLES = ['thirds', 'sixths', 'octaves'] as const;
export type Double = (typeof DOUBLES)[number];

/** How the hands go through a ladder of notes. */
export interface LineChoice {
  readonly octaves: number;
  readonly motion: Motion;
  /** Between the hands. */
  readonly apart: Distance;
  /** What one hand takes at once. */
  readonly double?: Double;
  /** Octave of the right hand's lowest tonic; absent: about the middle of the keyboard. */
  readonly start?: number;
}

/** Notes of scales that go by step alone, where a third is two steps: the octatonic has eight, whole tones make six. */
const STEPWISE: ReadonlySet<number> = new Set([6, 7, 8]);
const TWELVE = 12;
/** Octaves up to which hands in contrary motion begin an octave apart; beyond, both on the same key to keep to the keyboard. */
const MOST_FROM_AN_OCTAVE = 2;
/** More octaves each way in contrary motion are not on the keyboard, wherever the hands begin. */
const MOST_CONTRARY = 3;

/**
 * Places of a third, or of a sixth, which is its inversion. In scales that go by step a third is two steps: major thirds
 * among whole tones, minor ones in the octatonic scales; in the chromatic scale minor thirds and major sixths. All is
 * common practice. A pentatonic scale leaps, so that two of its steps are now a third, now a fourth.
 */
function placesOf(interval: 'third' | 'sixth', { size }: Ladder): number {
  if (size !== TWELVE && !STEPWISE.has(size)) {
    throw optionError(
      'kinds',
      `a scale of ${size} notes has no ${interval}s; take a scale that goes by step`,
    );
  }
  const third = size === TWELVE ? 3 : 2;
  return interval === 'third' ? third : size - third;
}

function doubled(double: Double | undefined, ladder: Ladder): readonly number[] {
  if (double === undefined) return [];
  if (double === 'octaves') return [ladder.size];
  return [placesOf(double === 'thirds' ? 'third' : 'sixth', ladder)];
}

/** How many places the left hand lies below the right one. */
function below(apart: Distance, ladder: Ladder): number {
  switch (apart) {
    case 'octave':
      return ladder.size;
    case 'third':
      return placesOf('third', ladder);
    case 'sixth':
      return ladder.size - placesOf('third', ladder);
    case 'tenth':
      return ladder.size + placesOf('third', ladder);
  }
}

/**
 * Through a ladder of notes and back, scale or chord, in the way of the choice.
 *
 * @param from place of the first note: 0, or a higher one for an inversion
 */
export function ladderExercises(ladder: Ladder, choice: LineChoice, from = 0): readonly Exercise[] {
  return exercisesOf(ladder, choice, thereAndBack(from, from + choice.octaves * ladder.size));
}

/** Any line of places from the tonic, both hands in the way of the choice. */
export function exercisesOf(
  ladder: Ladder,
  choice: LineChoice,
  places: readonly Place[],
  remark?: string,
): readonly Exercise[] {
  const { motion, apart, double, start } = choice;
  const above = doubled(double, ladder);
  const isContrary = motion === 'contrary';
  if (isContrary && choice.octaves > MOST_CONTRARY) {
    throw optionError(
      'octaves',
      `${choice.octaves} each way are more than the keyboard has; contrary motion takes ${MOST_CONTRARY} at most`,
    );
  }
  // In thirds and tenths the left hand has the tonic, in sixths the right one.
  const lift = !isContrary && (apart === 'third' || apart === 'tenth') ? placesOf('third', ladder) : 0;
  const right = shifted(places, lift);
  const gap = choice.octaves <= MOST_FROM_AN_OCTAVE ? ladder.size : 0;
  const left = isContrary ? shifted(inverted(places), -gap) : shifted(right, -below(apart, ladder));
  const widest = Math.max(0, ...above);
  const least = reach(left).least;
  const most = reach(right).most + widest;
  const octave = start ?? middleOctave(ladder, least, most);
  return asExercises(
    motion,
    stepsOn(ladder, octave, right, above),
    stepsOn(ladder, octave, left, above),
    remark,
  );
}
