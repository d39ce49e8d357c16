/**
 * Index of the first item from `low` up to `high` that is not before a place, or `high` where all are. Those that are
 * before it must come first.
 *
 * @param isBefore also gets the item's index
 */
export function firstNotBefore<T, P>(
  items: ArrayLike<T>,
  place: P,
  isBefore: (item: T, place: P, at: number) => boolean,
  low = 0,
  high = items.length,
): number {
  let first = low;
  let end = high;
  while (first < end) {
    const middle = (first + end) >> 1;
    if (isBefore(items[middle]!, place, middle)) first = middle + 1;
    else end = middle;
  }
  return first;
}
