import { travelCost, travelWeight } from '../../anatomy/travel.js';
import { isFree } from '../../hands/fresh-start.js';
import type { Slice } from '../../hands/line.js';
import { type Figure, figuresOf } from './figure.js';

/**
 * What the forearm can do as a mass, in and out of the keys. All numbers of this file: from memory. The whole arm moves
 * to and fro at ease about twice a second, which makes four reversals.
 */

/** mm a second at most. */
export const GREATEST_SPEED = 120;
/** Seconds from one reversal to the next at least. */
export const LEAST_SECONDS_TO_TURN = 0.25;
/** Two onsets count as this many seconds apart at least. */
export const LEAST_SECONDS = 0.02;

/**
 * mm equivalents that scale the price of a reversal where the notes come quicker than that. It grows as the power that
 * drives a mass faster than it swings by itself: the force, by the square of the rate less what the swing itself gives,
 * times the speed, by the rate. Four notes a second cost nothing, six about 11 mm, which no figure's fingers are worth.
 */
const TURN_COST = 6;
/**
 * Seconds a note below which reversals have that price: in a figure that turns to and fro the forearm rolls or the hand swings from
 * bass to chord, through a broken chord the arm carries the hand sideways, and neither also goes in and out with every note.
 */
const SECONDS_TO_TURN: Readonly<Record<Figure, number>> = {
  'to-and-fro': 1,
  'broken-chord': 0.5,
  line: LEAST_SECONDS_TO_TURN,
};
/** mm up to which the forearm moves from the elbow alone, and how much dearer a mm is beyond, as so many more at first. */
const FROM_ELBOW = 18;
const UPPER_ARM = 10;
/** Share by which travel is dearer for every key that is held meanwhile: its finger is dragged along. */
const DRAG = 1;

/** Seconds and mm by which rounding may tell equal times apart. */
const ROUNDING = 1e-6;

/** The move from one slice to the next. */
export interface Move {
  readonly seconds: number;
  /** mm equivalents per mm of travel at first. */
  readonly weight: number;
  /** mm equivalents of a reversal. */
  readonly turn: number;
}

/** The moves into every slice of a line. */
export function movesInto(slices: readonly Slice[]): Move[] {
  const moves: Move[] = [];
  const figures = figuresOf(slices);
  for (let at = 0; at < slices.length; at++) moves.push(moveInto(slices[at]!, figures[at]!));
  return moves;
}

export function moveInto(
  { seconds, free, phraseStart, held }: Pick<Slice, 'seconds' | 'free' | 'phraseStart' | 'held'>,
  figure: Figure,
): Move {
  const apart = Math.max(LEAST_SECONDS, seconds);
  const rate = Math.max(1, SECONDS_TO_TURN[figure] / apart);
  return {
    seconds: apart,
    weight: travelWeight(seconds, isFree(free, phraseStart)) * (1 + DRAG * fingersHolding(held)),
    turn: TURN_COST * rate * (rate ** 2 - 1),
  };
}

/**
 * What a move of the forearm costs in mm equivalents: as for fingering, and more where it is so far that the upper arm comes
 * along. Convex in `mm`.
 *
 * @param weight of a `Move`
 */
export function armTravel(mm: number, weight: number): number {
  return travelCost(mm, weight) + weight * UPPER_ARM * Math.max(0, Math.abs(mm) - FROM_ELBOW);
}

/** How many keys are held by a finger, and not by the pedal. */
function fingersHolding(held: Slice['held']): number {
  let count = 0;
  for (const { pedalled } of held) if (!pedalled) count++;
  return count;
}

/** Whole mm that the forearm covers at most in some seconds. */
export function farthest(seconds: number): number {
  return Math.floor(GREATEST_SPEED * seconds + ROUNDING);
}

/** Whether an arm that turned so many seconds ago may turn again. */
export function mayTurn(seconds: number): boolean {
  return seconds >= LEAST_SECONDS_TO_TURN - ROUNDING;
}
