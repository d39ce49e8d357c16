import { FREE_SECONDS } from '../hands/fresh-start.js';

/** What it costs the forearm to move in or out, in mm equivalents of sideways hand travel. Weights: from memory. */

/** Weight per mm at the reference time between two onsets, in seconds: eighth notes at 120 a minute. */
const WEIGHT = 0.035;
const REFERENCE = 0.25;
const LEAST_WEIGHT = 0.015;
const GREATEST_WEIGHT = 0.1;
/** A hand off the keys, or at the start of a phrase, moves at this share of the cost. */
const FREE_SHARE = 0.3;

/**
 * Weight per mm of forearm travel for the move that ends at an onset.
 *
 * @param seconds since the previous onset
 * @param free seconds of these during which the hand held no key
 * @param phraseStart a phrase begins here
 */
export function travelWeight(seconds: number, free: number, phraseStart: boolean): number {
  const paced = WEIGHT * Math.sqrt(REFERENCE / Math.max(seconds, 1e-3));
  const weight = Math.min(GREATEST_WEIGHT, Math.max(LEAST_WEIGHT, paced));
  return phraseStart || free >= FREE_SECONDS ? weight * FREE_SHARE : weight;
}

/** mm over which the cost of one move doubles: two small moves cost less than a large one. */
const SURGE = 15;

/** Cost of moving by `mm`, in or out, at a weight of `travelWeight`. Convex in `mm`. */
export function travelCost(mm: number, weight: number): number {
  const way = Math.abs(mm);
  return weight * way * (1 + way / SURGE);
}
