import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { MotionPlan, SliceMotion } from '../motion/plan.js';
import type { CueKey } from './keys.js';

/** Smallest sideways travel of the arm in one direction worth a cue, mm: from memory. */
const NOTICEABLE_CARRY = 40;
/** Fingers that the wrist rises with at least: between the thumbs of a group of three there are two. */
const RISING_FINGERS = 2;
/** Smallest turn of the forearm worth a cue, out of the 2 between both ends: from memory. */
const NOTICEABLE_TURN = 0.7;
/** Turns to and fro that make a figure of rotation, and the seconds a note at most: from memory. */
const FIGURE_TURNS = 4;
const FIGURE_SECONDS = 0.4;

/** A cue by slice of one layer. */
export type LayerCues = (CueKey | undefined)[];

function none({ slices }: MotionPlan): LayerCues {
  return new Array<CueKey | undefined>(slices.length).fill(undefined);
}

/** One cue on the note from which the arm sets out. */
export function carryCues(plan: MotionPlan): LayerCues {
  const { slices } = plan;
  const cues = none(plan);
  for (let start = 1; start < slices.length; ) {
    const direction = Math.sign(slices[start]!.armChange);
    let end = start + 1;
    while (end < slices.length && Math.sign(slices[end]!.armChange) === direction) end++;
    const travel = Math.abs(slices[end - 1]!.arm - slices[start - 1]!.arm);
    if (direction !== 0 && travel >= NOTICEABLE_CARRY)
      cues[start - 1] = direction > 0 ? 'arm-right' : 'arm-left';
    start = end;
  }
  return cues;
}

/** One cue where the wrist begins to rise, and one where it comes level after it. */
export function contourCues(plan: MotionPlan): LayerCues {
  const { slices } = plan;
  const cues = none(plan);
  for (let start = 0; start < slices.length; ) {
    let end = start + 1;
    if (slices[start]!.contour > 0) {
      while (end < slices.length && slices[end]!.contour > slices[end - 1]!.contour) end++;
      if (end - start >= RISING_FINGERS) {
        cues[start] = 'wrist-rises';
        if (end < slices.length) cues[end] = 'wrist-level';
      }
    }
    start = end;
  }
  return cues;
}

/**
 * The forearm's turns. Where it turns to and fro with every note, widely or between keys that come back, as in trills,
 * tremolos, broken octaves and Alberti basses, one cue tells of the figure; elsewhere each side in turn, as the forearm
 * swings.
 */
export function rollCues(line: Line, plan: MotionPlan): LayerCues {
  const { slices } = plan;
  const cues = none(plan);
  let side = 0;
  for (let at = 1; at < slices.length; at++) {
    const figure = figureEnd(line, slices, at);
    if (figure - at >= FIGURE_TURNS) {
      cues[at - 1] = 'rotate';
      side = 0;
      at = figure - 1;
      continue;
    }
    if (isFreshStart(line.slices[at]!)) side = 0;
    const swing = swingFrom(slices, at);
    if (Math.abs(swing) >= NOTICEABLE_TURN && Math.sign(swing) !== side) {
      side = Math.sign(swing);
      cues[at] = side > 0 ? 'turn-fifth' : 'turn-thumb';
    } else if (slices[at]!.rollPrepare) cues[at] = 'turn-afresh';
  }
  return cues;
}

/** The first slice after a figure that turns at every slice from this one on. */
function figureEnd(line: Line, slices: readonly SliceMotion[], start: number): number {
  let end = start;
  let last = 0;
  while (end < slices.length) {
    const turn = turnAt(slices, end);
    const { seconds } = line.slices[end]!;
    if (turn === 0 || turn === last || seconds > FIGURE_SECONDS || isFreshStart(line.slices[end]!)) break;
    if (!isWide(slices, end) && !comesBack(slices, end)) break;
    last = turn;
    end++;
  }
  return end;
}

function isWide(slices: readonly SliceMotion[], at: number): boolean {
  return Math.abs(slices[at]!.roll - slices[at - 1]!.roll) >= NOTICEABLE_TURN;
}

/** Whether one of the notes between which the forearm turns comes back on the other's far side, as in a trill. */
function comesBack(slices: readonly SliceMotion[], at: number): boolean {
  return shareKey(slices[at - 1]!, slices[at + 1]) || shareKey(slices[at]!, slices[at - 2]);
}

function shareKey(one: SliceMotion, other: SliceMotion | undefined): boolean {
  return one.fingers.some(({ key }) => other?.fingers.some((own) => own.key === key));
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
