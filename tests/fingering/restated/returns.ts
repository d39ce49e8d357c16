import type { SliceView } from '#core/fingering/view/view.js';

/**
 * A key that returns after at least two and at most seven others, all within an octave, of five different keys at most, none
 * struck twice in a row. In music that recurs on the same keys, one other is enough, if it returns in the same measure and
 * three notes before and after lie in that place as well.
 */
export const RETURN = { least: 3, most: 8, span: 12, keys: 5, price: 8 };
export const RECURRING = { least: 2, margin: 3, price: 80 };

const single = (view: SliceView | undefined): view is SliceView => view?.keys.length === 1;

/** Whether single keys follow each other from one slice to another without a break. */
function unbroken(views: readonly SliceView[], from: number, to: number): boolean {
  const slices = views.slice(from, to + 1);
  return slices.every((view, nth) => single(view) && (nth === 0 || (!view.fresh && !view.cut)));
}

/** Whether one place of the hand covers these keys. */
function fits(keys: readonly number[]): boolean {
  return Math.max(...keys) - Math.min(...keys) <= RETURN.span && new Set(keys).size <= RETURN.keys;
}

/** Whether it covers them, and none is struck twice in a row. */
function inPlace(keys: readonly number[]): boolean {
  return fits(keys) && !keys.some((key, nth) => key === keys[nth - 1]);
}

/** The slice at which a key returns while the hand, until the key after it, covers all single keys at once. */
export function comesBack(views: readonly SliceView[], at: number): number | undefined {
  for (let to = at + RECURRING.least; to <= at + RETURN.most && to < views.length; to++) {
    const keys = views.slice(at, to + 1).map((view) => view.keys[0]!);
    if (keys.at(-1) !== keys[0] || keys.slice(1, -1).includes(keys[0]!)) continue;
    if (!unbroken(views, at, to) || !inPlace(keys)) continue;
    const next = views[to + 1];
    return fits(single(next) ? [...keys, next.keys[0]!] : keys) ? to : undefined;
  }
  return undefined;
}

/** Whether the notes around a return lie in the same place, as far as no break lies between. */
export function isSettled(views: readonly SliceView[], at: number, back: number): boolean {
  if (views[at]!.slice.measure !== views[back]!.slice.measure) return false;
  let [first, last] = [at, back];
  while (first > 0 && first > at - RECURRING.margin && unbroken(views, first - 1, at)) first--;
  while (last < views.length - 1 && last < back + RECURRING.margin && unbroken(views, back, last + 1)) last++;
  return inPlace(views.slice(first, last + 1).map((view) => view.keys[0]!));
}
