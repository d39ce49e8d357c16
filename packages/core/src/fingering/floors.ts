import { crossing, OVERLAP } from './terms/crossing.js';
import { hop } from './terms/hop.js';
import { OFFSETS, TERMS } from './terms/terms.js';

/**
 * mm equivalents at least, where the fit may not decide because editors hardly print such places: long fingers that
 * cross each other in a connected line are no fingering, and a finger that hops to another key breaks the line (common
 * practice; the numbers from memory). Hops by pace.
 */
const LEAST_OVERLAP = 300;
const LEAST_HOP = [20, 15, 8] as const;

/** The weights with every floor kept. */
export function floored(weights: Float64Array): Float64Array {
  const result = Float64Array.from(weights);
  const raise = (at: number, least: number): void => {
    result[at] = Math.max(result[at]!, least);
  };
  raise(OFFSETS[TERMS.indexOf(crossing)]! + OVERLAP, LEAST_OVERLAP);
  LEAST_HOP.forEach((least, pace) => {
    raise(OFFSETS[TERMS.indexOf(hop)]! + pace, least);
  });
  return result;
}
