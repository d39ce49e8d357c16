import type { SliceView } from '../../view/view.js';

/** Whether two slices of one key each follow each other without a break. */
export function joins(before: SliceView | undefined, view: SliceView | undefined): boolean {
  return before?.keys.length === 1 && view?.keys.length === 1 && !view.fresh && !view.cut;
}
