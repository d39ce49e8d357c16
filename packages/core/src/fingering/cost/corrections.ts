import { chain, GROUPS_OF_TWO } from './terms/chain.js';
import { crossing, OVERLAP, OVERLAP_ON_BLACK } from './terms/crossing.js';
import { hop } from './terms/hop.js';
import type { Term } from './terms/term.js';
import { OFFSETS, TERMS } from './terms/terms.js';
import { thumb } from './terms/thumb.js';

/**
 * Least weights, mm equivalents, of what the fit cannot judge because editors hardly ever print it: long fingers that cross
 * each other in a connected line (permitted, but dear, where the longer one is on a black key), a finger that hops to
 * another key and breaks the line (by pace), and the thumb on a black key, which it avoids where it can, in crossings and
 * in runs (common practice). Those of hops and thumbs are the numbers with which works held out agree best or no worse.
 */
const LEAST_OVERLAP = 300;
const LEAST_OVERLAP_ON_BLACK = 20;
/** Crossings with the thumb on a black key, by feature of `crossing`. */
const BLACK_THUMB = [1, 3, 6, 7] as const;
const LEAST_BLACK_THUMB = 40;
const LEAST_BLACK_THUMB_IN_RUN = 30;
const LEAST_HOP = [60, 60, 40] as const;

/**
 * mm equivalents added to the fitted weight of two notes between crossings: editors print the digit where
 * the hand crosses and leave others out, so that printed digits make groups of thumb and 2 look more common than they
 * are. Works held out agree nearly as often with this charge as without; it brings the handbook's scales nearer
 * (`tests/handbook`), which are among the ten best in 22 and 23 of 24 keys without it.
 */
const MORE_FOR_GROUP_OF_TWO = 6;

/** The fitted weights with these corrections. */
export function corrected(weights: Float64Array): Float64Array {
  const result = Float64Array.from(weights);
  const place = (term: Term, feature: number): number => OFFSETS[TERMS.indexOf(term)]! + feature;
  const raise = (term: Term, feature: number, least: number): void => {
    const at = place(term, feature);
    result[at] = Math.max(result[at]!, least);
  };
  for (const feature of BLACK_THUMB) raise(crossing, feature, LEAST_BLACK_THUMB);
  raise(crossing, OVERLAP, LEAST_OVERLAP);
  raise(crossing, OVERLAP_ON_BLACK, LEAST_OVERLAP_ON_BLACK);
  raise(thumb, 0, LEAST_BLACK_THUMB_IN_RUN);
  LEAST_HOP.forEach((least, pace) => {
    raise(hop, pace, least);
  });
  for (const feature of GROUPS_OF_TWO) result[place(chain, feature)]! += MORE_FOR_GROUP_OF_TWO;
  return result;
}
