import { chain, GROUPS_OF_TWO } from './habits/chain.js';
import { chord, WHITE_OCTAVE_BY_FOURTH } from './habits/chord.js';
import { sizeOf } from './terms/blocks.js';
import { BLACK_THUMB, BY_FIFTH, crossing, OVERLAP, OVERLAP_ON_BLACK } from './terms/crossing.js';
import { FOURTH, frame, NO_FIFTH, NO_THUMB } from './terms/frame.js';
import { FAST_HOPS, hop, MODERATE_HOPS, SLIDE, SLOW_HOPS } from './terms/hop.js';
import { BESIDE_HELD, position, RETURNING_FINGER, RETURNING_KEY, TURNING } from './terms/position.js';
import { PASS, passes } from './terms/stated/passes.js';
import {
  INNER_STRAINS,
  NARROW_STRAINS_IN_TIME,
  STRAINS_IN_TIME,
  stretch,
  THUMB_STRAINS,
  WIDE_STRAINS_IN_TIME,
} from './terms/stretch.js';
import { isHabit, type Term } from './terms/term.js';
import { FEATURES, OFFSETS, TERMS } from './terms/terms.js';
import { thumb } from './terms/thumb.js';

/** Features of a term and mm equivalents. */
type Amount = readonly [term: Term, features: readonly number[], mm: number];

/**
 * Least weights, mm equivalents, of what the fit cannot judge because editors hardly ever print it (common practice; the
 * numbers are those with which works held out agree best or no worse, and the passages of `tests/practice` pass): the thumb
 * on a black key, crossings of long fingers and of 5, pairs strained to their limit, one finger that hops or slides, a hand
 * that leaves its place, a chord without 1 and 5 outside. The fit keeps to them, so that habits are learned beside them.
 */
const LEAST: readonly Amount[] = [
  [crossing, BLACK_THUMB, 40],
  [crossing, [OVERLAP], 400],
  [crossing, [BY_FIFTH], 300],
  [crossing, [OVERLAP_ON_BLACK], 50],
  [thumb, [0], 30],
  [stretch, THUMB_STRAINS, 250],
  [stretch, INNER_STRAINS, 30],
  [stretch, STRAINS_IN_TIME, 8],
  [stretch, NARROW_STRAINS_IN_TIME, 14],
  [hop, FAST_HOPS, 120],
  [hop, MODERATE_HOPS, 80],
  [hop, SLOW_HOPS, 40],
  [hop, [SLIDE], 12],
  [position, [TURNING], 3],
  [position, [RETURNING_KEY], 8],
  [position, [RETURNING_FINGER], 15],
  [position, [BESIDE_HELD + RETURNING_KEY], 40],
  [position, [BESIDE_HELD + RETURNING_FINGER], 80],
  [frame, [NO_THUMB, NO_FIFTH], 45],
  [frame, [FOURTH], 8],
];

/**
 * mm equivalents added to fitted weights, because editors print digits where they are unexpected and leave others out, so
 * that printed digits make the unexpected look more common than it is: two notes between crossings, chords without 1 and 5
 * outside, octaves of white keys by 1 and 4, a place left at a turn, slides from black to white keys, broken octaves by other
 * fingers than 1 and 5, passes of the thumb, those from or to black keys above all.
 */
const CHARGES: readonly Amount[] = [
  [chain, GROUPS_OF_TWO, 6],
  [frame, [NO_THUMB, NO_FIFTH], 25],
  [frame, [FOURTH], 16],
  [chord, [WHITE_OCTAVE_BY_FOURTH], 40],
  [position, [TURNING], 2],
  [hop, [SLIDE], 18],
  [hop, FAST_HOPS, 120],
  [hop, MODERATE_HOPS, 80],
  [hop, SLOW_HOPS, 80],
  [crossing, [OVERLAP_ON_BLACK], 50],
  [stretch, WIDE_STRAINS_IN_TIME, 6],
  [crossing, BLACK_THUMB, 15],
  [passes, [PASS], 5],
];

/** The least that each weight may be, mm equivalents by feature: 0 for mechanics, minus infinity for habits. */
export function leastWeights(): Float64Array {
  const least = new Float64Array(FEATURES).fill(Number.NEGATIVE_INFINITY);
  TERMS.forEach((term, nth) => {
    if (!isHabit(term)) least.fill(0, OFFSETS[nth]!, OFFSETS[nth]! + sizeOf(term.blocks));
  });
  for (const [term, features, mm] of LEAST) {
    for (const feature of features) least[offsetOf(term) + feature] = mm;
  }
  return least;
}

/** The weights, none below its least. */
export function atLeast(weights: Float64Array): Float64Array {
  const least = leastWeights();
  return weights.map((mm, at) => Math.max(mm, least[at]!));
}

/** The weights, none below its least, and the charges added. */
export function corrected(weights: Float64Array): Float64Array {
  const result = atLeast(weights);
  for (const [term, features, mm] of CHARGES) {
    for (const feature of features) result[offsetOf(term) + feature]! += mm;
  }
  return result;
}

function offsetOf(term: Term): number {
  return OFFSETS[TERMS.indexOf(term)]!;
}
