import { crossing, OVERLAP } from './terms/crossing.js';
import { OFFSETS, TERMS } from './terms/terms.js';

/**
 * mm equivalents at least, where the fit may not decide: long fingers that cross each other in a connected line are no
 * fingering, whatever is printed now and then (common practice).
 */
const LEAST_OVERLAP = 300;

/** The weights with every floor kept. */
export function floored(weights: Float64Array): Float64Array {
  const at = OFFSETS[TERMS.indexOf(crossing)]! + OVERLAP;
  return weights.map((weight, feature) => (feature === at ? Math.max(weight, LEAST_OVERLAP) : weight));
}
