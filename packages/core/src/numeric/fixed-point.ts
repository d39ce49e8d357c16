/**
 * mm equivalents. All costs that the search adds up are multiples of this, so that sums of up to 500 million mm are exact
 * in binary: equal fingerings cost exactly the same, in whatever order their costs are added.
 */
const RESOLUTION = 2 ** -24;
/** Reported costs are rounded to 1 / SCALE mm. */
const SCALE = 1e6;

/**
 * The nearest multiple of the resolution.
 *
 * @param resolution a power of two; costs that come to the same multiple of it count as equal
 */
export function toFixedPoint(cost: number, resolution = RESOLUTION): number {
  return Math.round(cost / resolution) * resolution;
}

/** A cost, or a sum of a few, as reports give it: with six decimal places. */
export function rounded(cost: number): number {
  return Math.round(cost * SCALE) / SCALE;
}

export function sumOf(costs: readonly number[]): number {
  let sum = 0;
  for (let at = 0; at < costs.length; at++) sum += costs[at]!;
  return sum;
}
