import { isFreshStart } from '../hands/fresh-start.js';
import { haveSameKeys, type Line, type Slice } from '../hands/line.js';
import type { MotionPlan, SliceMotion } from '../motion/plan.js';
import { type LayerCues, none } from './layer-cues.js';

/** Smallest turn of the forearm worth a cue, out of the 2 between both ends: from memory. */
const NOTICEABLE_TURN = 0.7;
/** Turns to and fro that make a figure of rotation, and the seconds a note at most: from memory. */
const FIGURE_TURNS = 4;
const FIGURE_SECONDS = 0.4;
/** Seconds a note up to which one turn swings into the next: in slower notes each is made by itself. From memory. */
const SWING_SECONDS = 0.75;
/** Semitones between which a forearm turns to and fro at most; beyond them the arm leaps. */
const OCTAVE = 12;

/**
 * The forearm's turns. Where it turns to and fro with every note, as in trills, tremolos, broken octaves and Alberti
 * basses, one cue tells of the figure; elsewhere each side in turn, as the forearm swings.
 */
export function rollCues(line: Line, plan: MotionPlan): LayerCues {
  const { slices } = plan;
  const cues = none(plan);
  let side = 0;
  for (let at = 1; at < slices.length; at++) {
    const figure = Math.max(...KINDS.map((isOfKind) => figureEnd(line, slices, at, isOfKind)));
    if (figure - at >= FIGURE_TURNS) {
      cues[at - 1] = 'rotate';
      side = 0;
      at = figure - 1;
      continue;
    }
    const slice = line.slices[at]!;
    if (isFreshStart(slice) || slice.seconds > SWING_SECONDS) side = 0;
    if (slice.seconds > SWING_SECONDS) continue;
    const swing = swingFrom(slices, at);
    if (Math.abs(swing) >= NOTICEABLE_TURN && Math.sign(swing) !== side) {
      side = Math.sign(swing);
      cues[at] = side > 0 ? 'turn-fifth' : 'turn-thumb';
    } else if (slices[at]!.rollPrepare) cues[at] = 'turn-afresh';
  }
  return cues;
}

/** Whether the turn at a slice belongs to a kind of figure. */
type Kind = (slices: readonly Slice[], at: number) => boolean;

const KINDS: readonly Kind[] = [comesBack, isBrokenOctave];

/** The first slice after a figure of a kind that turns at every slice from this one on. */
function figureEnd(line: Line, slices: readonly SliceMotion[], start: number, isOfKind: Kind): number {
  let end = start;
  let last = 0;
  while (end < slices.length) {
    const turn = turnAt(slices, end);
    const { seconds } = line.slices[end]!;
    if (turn === 0 || turn === last || seconds > FIGURE_SECONDS || isFreshStart(line.slices[end]!)) break;
    if (!isTurn(line, end, turn) || !isOfKind(line.slices, end)) break;
    last = turn;
    end++;
  }
  return end;
}

/** Whether the keys lie to the side to which the forearm turns, and no further than it reaches without a leap. */
function isTurn({ hand, slices }: Line, at: number, turn: number): boolean {
  const [from, to] = [keysOf(slices[at - 1]), keysOf(slices[at])];
  const side = hand === 'right' ? turn : -turn;
  const all = [...from, ...to];
  return (mean(to) - mean(from)) * side > 0 && Math.max(...all) - Math.min(...all) <= OCTAVE;
}

/** Trills, tremolos, Alberti basses: one of the two notes comes back on the other's far side. */
function comesBack(slices: readonly Slice[], at: number): boolean {
  return returns(slices, at - 1) || returns(slices, at);
}

/** The two notes, or those before and after them, are an octave. */
function isBrokenOctave(slices: readonly Slice[], at: number): boolean {
  if (isOctave(slices[at - 1], slices[at])) return true;
  return isOctave(slices[at - 2], slices[at - 1]) && isOctave(slices[at], slices[at + 1]);
}

/** Whether the same keys are struck two notes before or after. */
function returns(slices: readonly Slice[], at: number): boolean {
  const own = slices[at];
  if (own === undefined) return false;
  return [slices[at - 2], slices[at + 2]].some((other) => other !== undefined && haveSameKeys(own, other));
}

function isOctave(one: Slice | undefined, other: Slice | undefined): boolean {
  const [from, to] = [keysOf(one), keysOf(other)];
  return from.length === 1 && to.length === 1 && Math.abs(to[0]! - from[0]!) === OCTAVE;
}

function keysOf(slice: Slice | undefined): readonly number[] {
  return slice === undefined ? [] : slice.struck.map(({ key }) => key);
}

function mean(keys: readonly number[]): number {
  let sum = 0;
  for (const key of keys) sum += key;
  return sum / keys.length;
}

/** The whole turn to one side that begins at a slice; 0 where none does. */
function swingFrom(slices: readonly SliceMotion[], start: number): number {
  const direction = turnAt(slices, start);
  if (direction === 0 || (start > 1 && turnAt(slices, start - 1) === direction)) return 0;
  let end = start + 1;
  while (end < slices.length && turnAt(slices, end) === direction) end++;
  return slices[end - 1]!.roll - slices[start - 1]!.roll;
}

/** Side to which the forearm turns at a slice: -1 the thumb's, 1 the fifth finger's. */
function turnAt(slices: readonly SliceMotion[], at: number): number {
  return Math.sign(slices[at]!.roll - slices[at - 1]!.roll);
}
