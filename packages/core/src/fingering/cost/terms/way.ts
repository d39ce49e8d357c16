import type { SliceView } from '../../view/view.js';

/** Stands for three semitones that are written as a step of the staff; wider than any interval on the keyboard. */
export const AUGMENTED_SECOND = 100;

/** True where two single keys three semitones apart are neighbours on the staff. */
export function isAugmentedSecond(before: SliceView, view: SliceView): boolean {
  if (before.diatonic === undefined || view.diatonic === undefined) return false;
  return Math.abs(view.low - before.low) === 3 && Math.abs(view.diatonic - before.diatonic) === 1;
}

/**
 * Semitones from the highest key of one slice to that of the next, up positive. An augmented second between single keys
 * has a number of its own: neighbours on the staff ask for neighbouring fingers, as in a scale, where a minor third
 * leaves one out (common practice).
 */
export function wayOf(before: SliceView, view: SliceView): number {
  const way = view.high - before.high;
  return isAugmentedSecond(before, view) ? Math.sign(way) * AUGMENTED_SECOND : way;
}
