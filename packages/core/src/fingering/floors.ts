import { crossing, OVERLAP, OVERLAP_ON_BLACK } from './terms/crossing.js';
import { hop } from './terms/hop.js';
import { OFFSETS, TERMS } from './terms/terms.js';

/**
 * mm equivalents at least, where the fit may not decide because editors hardly print such places: long fingers that
 * cross each other in a connected line are no fingering (and dear where
 * the longer one is on a black key), a finger that hops to another key breaks the line (by pace), and
 * the thumb passes to white keys where it can (common practice). The numbers of hops and thumbs are those with which
 * works held out agree best or no worse.
 */
const LEAST_OVERLAP = 300;
const LEAST_OVERLAP_ON_BLACK = 20;
/** Crossings with the thumb on a black key, by feature of `crossing`. */
const BLACK_THUMB = [1, 3, 6, 7] as const;
const LEAST_BLACK_THUMB = 14;
const LEAST_HOP = [60, 60, 40] as const;

/** The weights with every floor kept. */
export function floored(weights: Float64Array): Float64Array {
  const result = Float64Array.from(weights);
  const raise = (at: number, least: number): void => {
    result[at] = Math.max(result[at]!, least);
  };
  raise(OFFSETS[TERMS.indexOf(crossing)]! + OVERLAP, LEAST_OVERLAP);
  raise(OFFSETS[TERMS.indexOf(crossing)]! + OVERLAP_ON_BLACK, LEAST_OVERLAP_ON_BLACK);
  for (const feature of BLACK_THUMB) raise(OFFSETS[TERMS.indexOf(crossing)]! + feature, LEAST_BLACK_THUMB);
  LEAST_HOP.forEach((least, pace) => {
    raise(OFFSETS[TERMS.indexOf(hop)]! + pace, least);
  });
  return result;
}
