import type { SliceView } from './view.js';

/** Stands for three semitones that are written as a step of the staff; wider than any interval on the keyboard. */
export const AUGMENTED_SECOND = 100;

/** True where two single keys three semitones apart are neighbours on the staff. */
export function isAugmentedSecond(before: SliceView, view: SliceView): boolean {
  if (before.diatonic === undefined || view.diatonic === undefined) return false;
  return Math.abs(view.low - before.low) === 3 && Math.abs(view.diatonic - before.diatonic) === 1;
}

/**
 * Semitones from the highest key of one slice to that of the next, up positive; `AUGMENTED_SECOND` or its negative for an
 * augmented second between single keys, because neighbours on the staff ask for neighbouring fingers, as in a scale, where
 * a minor third leaves one out (common practice).
 */
export function intervalBetween(before: SliceView, view: SliceView): number {
  const semitones = view.high - before.high;
  return isAugmentedSecond(before, view) ? Math.sign(semitones) * AUGMENTED_SECOND : semitones;
}

/** Number of different strides. */
export const STRIDES = 7;
/** The stride to the same key. */
const NONE = 3;

/**
 * An interval by its rough size, its stride, 0 ... 6: down by a leap, by a middle interval, by a step; none; up by a step,
 * by a middle interval, by a leap.
 *
 * @param interval semitones, or `AUGMENTED_SECOND`, which is a step
 * @param middle semitones of the widest middle interval; by default a third
 */
export function strideOf(interval: number, middle = 4): number {
  const size = Math.abs(interval);
  const rank = size === 0 ? 0 : size <= 2 || size === AUGMENTED_SECOND ? 1 : size <= middle ? 2 : 3;
  return NONE + Math.sign(interval) * rank;
}

/** True for a stride by step, up or down. */
export function isStep(stride: number): boolean {
  return Math.abs(stride - NONE) === 1;
}
