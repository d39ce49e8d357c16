/** What it costs the forearm to move in or out, in mm equivalents of sideways hand travel. All numbers: from memory. */

/** Weight per mm at the reference time between two onsets, in seconds: eighth notes at 120 quarter notes a minute. */
const WEIGHT = 0.035;
const REFERENCE_SECONDS = 0.25;
/** Weights per mm below and above which the pace makes no difference. */
const LEAST_WEIGHT = 0.015;
const GREATEST_WEIGHT = 0.1;
/** Seconds between two onsets below which they count as one. */
const LEAST_SECONDS = 1e-3;
/** A hand that is free to move does so at this share of the cost. */
const FREE_SHARE = 0.3;

/**
 * Weight per mm of forearm travel for the move that ends at an onset.
 *
 * @param seconds since the previous onset
 * @param isFree whether the hand is off the keys before the onset, as `isFree` of a slice says
 */
export function travelWeight(seconds: number, isFree: boolean): number {
  const paced = WEIGHT * Math.sqrt(REFERENCE_SECONDS / Math.max(seconds, LEAST_SECONDS));
  const weight = Math.min(GREATEST_WEIGHT, Math.max(LEAST_WEIGHT, paced));
  return isFree ? weight * FREE_SHARE : weight;
}

/** mm at which a move costs twice what it would per mm at first: two small moves cost less than a large one. */
const DOUBLING = 15;

/** Cost of moving by `mm`, in or out, at a weight of `travelWeight`. Convex in `mm`. */
export function travelCost(mm: number, weight: number): number {
  const distance = Math.abs(mm);
  return weight * distance * (1 + distance / DOUBLING);
}
