import { BLACK_FRONT, FALLBOARD, freeWidth, isBlack } from '../keyboard/plan.js';
import type { Finger } from '../score/model.js';
import { type HandModel, naturalTip, tipWidth } from './hand.js';

/** Margins in mm that a tip keeps from a key's front edge and from a black key's front (from memory). */
const FRONT_MARGIN = 8;
const BLACK_MARGIN = 4;
const FALLBOARD_MARGIN = 12;
/** Discomfort per mm: a curled finger, a finger stretched beyond its natural tip, a tip wedged between black keys. */
const CURL_WEIGHT = 0.6;
const OVERREACH_WEIGHT = 1;
const WEDGE_WEIGHT = 3;

/** Where on the key the tip comes to lie for a forearm depth, and what that costs. */
export interface TipPlacement {
  /** Depth of the tip in mm from the keys' front edge. */
  readonly tip: number;
  /** mm curled back (positive) or over-reached (negative) against the natural tip. */
  readonly curl: number;
  /** mm equivalents. */
  readonly discomfort: number;
}

/**
 * Cheapest place of a fingertip on a key when the forearm is at `depth` (the depth of 3's natural tip). A white key may
 * be played in front of the black keys or, wedged, between them; a black key from its front to near the fallboard.
 */
export function placeTip(hand: HandModel, finger: Finger, key: number, depth: number): TipPlacement {
  const natural = depth + naturalTip(hand, finger);
  if (isBlack(key)) return within(natural, BLACK_FRONT + BLACK_MARGIN, FALLBOARD - FALLBOARD_MARGIN, 0);
  const front = within(natural, FRONT_MARGIN, BLACK_FRONT, 0);
  if (natural <= BLACK_FRONT) return front;
  const wedge = WEDGE_WEIGHT * Math.max(0, tipWidth(hand, finger) - freeWidth(key));
  const between = within(natural, BLACK_FRONT, FALLBOARD - FALLBOARD_MARGIN, wedge);
  return between.discomfort < front.discomfort ? between : front;
}

function within(natural: number, low: number, high: number, extra: number): TipPlacement {
  const tip = Math.min(high, Math.max(low, natural));
  const curl = natural - tip;
  const discomfort = extra + (curl > 0 ? curl * CURL_WEIGHT : -curl * OVERREACH_WEIGHT);
  return { tip, curl, discomfort };
}
