/**
 * mm equivalents. All costs that the search adds up are multiples of this, so that sums of up to 500 million mm are exact
 * in binary: equal fingerings cost exactly the same, in whatever order their costs are added.
 */
const GRAIN = 2 ** -24;
/** Decimal places within which a grained cost is what it was. */
const SCALE = 1e6;

/** @param grain a power of two; costs that come to the same multiple of it count as equal */
export function grained(cost: number, grain = GRAIN): number {
  return Math.round(cost / grain) * grain;
}

/** A cost, or a sum of a few, as it is told: in decimal figures. */
export function told(cost: number): number {
  return Math.round(cost * SCALE) / SCALE;
}

export function sumOf(costs: readonly number[]): number {
  let sum = 0;
  for (let at = 0; at < costs.length; at++) sum += costs[at]!;
  return sum;
}
