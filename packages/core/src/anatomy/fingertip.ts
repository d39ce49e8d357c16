import { BLACK_FRONT, FALLBOARD, freeWidth, isBlack } from '../keyboard/key-plan.js';
import type { Finger } from '../score/model.js';
import { type HandModel, naturalTip, tipWidth } from './hand.js';

/**
 * All numbers of this file: from memory, tuned on facts.test.ts and scales.test.ts of tests/practice and on nothing else.
 * The facts of held-out.test.ts were kept for judging them.
 */

/** mm between a white key's front edge and the tip's pad, at least and for a secure hold; the thumb lies on its side. */
const FRONT_LEAST = 5;
const FRONT_SECURE = 15;
const FRONT_SECURE_THUMB = 22;
/** Half the length of a tip's pad, mm: the distance over which a tip enters between the black keys or leaves a black key. */
const PAD = 8;
/** mm from the keys' front edge to the tip's pad on a black key, at least and for a secure hold, and on any key at most. */
const BLACK_LEAST = BLACK_FRONT + 3;
const BLACK_SECURE = BLACK_FRONT + PAD;
const DEEPEST = FALLBOARD - 12;

/** mm equivalents per mm short of a secure hold, and per mm of depth beyond the black keys' front (a shorter lever). */
const INSECURE_WEIGHT = 0.8;
const LEVER_WEIGHT = 0.01;
/** mm equivalents per square mm by which a tip is wider than the room between the black keys. */
const WEDGE_WEIGHT = 4;
/**
 * A finger turned on its side fits between any keys at this cost; a thumb lies on its side already. Where fingers are chosen,
 * at depths that lie far apart, the wedge is scaled to the first, with which their weights were fitted; a finger that is
 * given squeezes in, or turns where that is cheaper.
 */
const SIDEWAYS = { chosen: 16, given: 8 } as const;
/** mm that a tip keeps clear of the black corners. */
const CLEAR = 3;
/** Share of the wedge that a tip has met after each third of its entry: black corners are rounded, a tip yields. */
const WEDGE_BY_THIRDS = [0, 0.15, 0.45, 1] as const;

/** mm that a finger curls or stretches easily from its natural tip; mm equivalents per mm within that and beyond. */
const EASY_CURL = 8;
const CURL_WEIGHTS = [0.35, 0.7] as const;
const EASY_STRETCH = 4;
const STRETCH_WEIGHTS = [0.4, 1.2] as const;

/** Where on the key the tip comes to lie for a forearm depth, and what that costs. */
export interface TipPlacement {
  /** Depth of the tip in mm from the keys' front edge. */
  readonly tip: number;
  /** mm curled back (positive) or over-reached (negative) against the natural tip. */
  readonly curl: number;
  /** mm equivalents. */
  readonly discomfort: number;
}

/** What a finger finds on a key at any depth of the forearm. */
interface Hold {
  /** Depth of the natural tip against that of the forearm, mm. */
  readonly natural: number;
  /** Least depth of the tip, and that of a secure hold, mm. */
  readonly least: number;
  readonly secure: number;
  readonly gap: Gap;
  /** mm equivalents for which the finger turns on its side instead of squeezing in. */
  readonly turned: number;
  /** Depths of the tip at which the cost of the key bends. */
  readonly corners: readonly number[];
}

/** mm equivalents by which rounding may make equal costs differ. */
const ROUNDING = 1e-9;

/** Where the cost of the finger bends, mm from its natural tip: of equal places the nearest to it is tried first. */
const OWN_CORNERS = [0, -EASY_CURL, EASY_STRETCH] as const;

/**
 * Cheapest place of a fingertip on a key, for choosing fingers, when the forearm is at `depth` (the depth of 3's natural
 * tip). A white key may be played in front of the black keys or, wedged, between them; a black key from its front to near
 * the fallboard. The cost is piecewise linear in the tip, so that its least value lies at a corner.
 */
export function placeTip(hand: HandModel, finger: Finger, key: number, depth: number): TipPlacement {
  const hold = holdOf(hand, finger, key, 'chosen');
  const natural = depth + hold.natural;
  const tip = cheapestTip(natural, hold);
  return { tip, curl: natural - tip, discomfort: discomfortAt(tip, natural, hold) };
}

/** Places for depths 1 mm apart, property by property. */
export interface TipRow {
  readonly tips: Float64Array;
  readonly curls: Float64Array;
  readonly discomforts: Float64Array;
}

/**
 * `placeTip` for a finger that is given.
 *
 * @param depth the first of `count` depths
 */
export function placeTips(
  hand: HandModel,
  finger: Finger,
  key: number,
  depth: number,
  count: number,
): TipRow {
  const hold = holdOf(hand, finger, key, 'given');
  const tips = new Float64Array(count);
  const curls = new Float64Array(count);
  const discomforts = new Float64Array(count);
  for (let step = 0; step < count; step++) {
    const natural = depth + step + hold.natural;
    const tip = cheapestTip(natural, hold);
    tips[step] = tip;
    curls[step] = natural - tip;
    discomforts[step] = discomfortAt(tip, natural, hold);
  }
  return { tips, curls, discomforts };
}

function holdOf(hand: HandModel, finger: Finger, key: number, use: keyof typeof SIDEWAYS): Hold {
  const secure = isBlack(key) ? BLACK_SECURE : finger === 1 ? FRONT_SECURE_THUMB : FRONT_SECURE;
  const sideways = finger === 1 ? Number.POSITIVE_INFINITY : SIDEWAYS[use];
  const most = use === 'chosen' ? sideways : Number.POSITIVE_INFINITY;
  const gap = gapOf(tipWidth(hand, finger), freeWidth(key), most);
  const corners = [secure];
  for (let third = 0; third <= 3; third++) corners.push(gap.start + (third * gap.entry) / 3);
  const least = isBlack(key) ? BLACK_LEAST : FRONT_LEAST;
  return { natural: naturalTip(hand, finger), least, secure, gap, turned: sideways, corners };
}

function cheapestTip(natural: number, hold: Hold): number {
  const { corners } = hold;
  let tip = within(natural, hold);
  let least = Number.POSITIVE_INFINITY;
  for (let nth = 0; nth < OWN_CORNERS.length + corners.length; nth++) {
    const own = OWN_CORNERS[nth];
    const other = within(own === undefined ? corners[nth - OWN_CORNERS.length]! : natural + own, hold);
    const discomfort = discomfortAt(other, natural, hold);
    if (discomfort < least - ROUNDING) {
      tip = other;
      least = discomfort;
    }
  }
  return tip;
}

/** The possible depth of a tip nearest to a wanted one. */
function within(tip: number, { least }: Hold): number {
  return Math.min(DEEPEST, Math.max(least, tip));
}

function discomfortAt(tip: number, natural: number, { secure, gap, turned }: Hold): number {
  return (
    bend(natural - tip) +
    INSECURE_WEIGHT * Math.max(0, secure - tip) +
    LEVER_WEIGHT * Math.max(0, tip - BLACK_FRONT) +
    Math.min(turned, gap.wedge * entered((tip - gap.start) / gap.entry))
  );
}

interface Gap {
  /** Depth of the tip where it begins to enter, and the distance from there until it is in, mm. */
  readonly start: number;
  readonly entry: number;
  /** Cost of a tip that is in, mm equivalents. */
  readonly wedge: number;
}

/** A round tip touches the corners of a gap that is too narrow for it the earlier, the narrower the gap is. */
function gapOf(width: number, free: number, most: number): Gap {
  const tight = Math.max(0, width - free);
  const touch = tight > 0 ? Math.sqrt(width ** 2 - free ** 2) / 2 : 0;
  const start = BLACK_FRONT - CLEAR - touch;
  return { start, entry: BLACK_FRONT + PAD - start, wedge: Math.min(most, WEDGE_WEIGHT * tight ** 2) };
}

/** Share of the wedge that a tip has met at a share of its entry. */
function entered(share: number): number {
  if (share <= 0) return 0;
  const third = Math.min(2, Math.floor(share * 3));
  const from = WEDGE_BY_THIRDS[third]!;
  const to = WEDGE_BY_THIRDS[third + 1]!;
  return from + (to - from) * Math.min(1, share * 3 - third);
}

function bend(curl: number): number {
  if (curl >= 0) return graded(curl, EASY_CURL, CURL_WEIGHTS);
  return graded(-curl, EASY_STRETCH, STRETCH_WEIGHTS);
}

function graded(mm: number, easy: number, weights: readonly [within: number, beyond: number]): number {
  return mm <= easy ? mm * weights[0] : easy * weights[0] + (mm - easy) * weights[1];
}
