import type { Line } from '../hands/line.js';
import type { Crossing, MotionPlan, SliceMotion } from '../motion/plan.js';
import type { CueKey } from './keys.js';

/** A cue that could be printed. */
export interface Candidate {
  readonly key: CueKey;
  /** How much depends on it: mm of the move that it asks for, or mm equivalents of a crossing's difficulty. */
  readonly weight: number;
}

/** Sorts by weight, the greatest first. */
export function weightierFirst(a: Pick<Candidate, 'weight'>, b: Pick<Candidate, 'weight'>): number {
  return b.weight - a.weight;
}

/** All numbers here are in mm, unless they are shares, and from memory. Smallest depth move worth a cue, and one that counts as far. */
const NOTICEABLE = 3;
const FAR = 25;
/** Added to a crossing's difficulty: even an easy one wants attention. */
const CROSSING_WEIGHT = 8;
/** Share of its weight that a depth move keeps while the hand is off the keys. */
const FREE_SHARE = 0.5;
/** Smallest sideways travel of the arm in one direction worth a cue, and its weight per mm against depth. */
const NOTICEABLE_CARRY = 40;
const CARRY_WEIGHT = 0.15;
/** Smallest rise of the wrist worth a cue: two fingers between thumbs. */
const NOTICEABLE_RISE = 5;
/**
 * Smallest turn of the forearm worth a cue, out of the 2 between both ends; notes over which it swings by itself; weight
 * of a turn of 1; weight of a turn that must be prepared afresh.
 */
const NOTICEABLE_TURN = 0.7;
const SWING_NOTES = 1;
const TURN_WEIGHT = 6;
const AFRESH_WEIGHT = 8;

/** The cues that could be printed, by slice. */
export function cueCandidates(
  line: Line,
  plan: MotionPlan,
  handCrossings: readonly (Crossing | undefined)[] = [],
): readonly (readonly Candidate[])[] {
  const layers = [
    depthCues(line, plan.slices),
    carryCues(plan.slices),
    contourCues(plan.slices),
    rollCues(plan.slices),
  ];
  const all: Candidate[][] = [];
  for (let at = 0; at < plan.slices.length; at++) {
    const cues: Candidate[] = [];
    add(cues, crossingCue(plan.slices[at]!.crossing));
    add(cues, crossingCue(handCrossings[at]));
    for (const layer of layers) add(cues, layer[at]);
    all.push(cues);
  }
  return all;
}

function add(cues: Candidate[], cue: Candidate | undefined): void {
  if (cue) cues.push(cue);
}

const CROSSING_KEYS = {
  'thumb-passing': 'thumb-passes',
  'finger-over': 'over-thumb',
  'hand-over': 'hand-over',
  'hand-under': 'hand-under',
} as const satisfies Record<Crossing['kind'], CueKey>;

function crossingCue(crossing: Crossing | undefined): Candidate | undefined {
  return crossing && { key: CROSSING_KEYS[crossing.kind], weight: CROSSING_WEIGHT + crossing.difficulty };
}

/** Small moves in one direction add up until they are worth a cue; what a cue has asked for is not asked for again. */
function depthCues(line: Line, slices: readonly SliceMotion[]): (Candidate | undefined)[] {
  const cues = new Array<Candidate | undefined>(slices.length).fill(undefined);
  // Depth at the last cue.
  let cued = slices[0]?.depth ?? 0;
  for (let at = 0; at < slices.length; at++) {
    const { depth, depthChange, lean } = slices[at]!;
    if (depthChange === 0) continue;
    // The hand has turned round before its small moves were worth a cue.
    if (Math.sign(depth - cued) !== Math.sign(depthChange)) cued = depth - depthChange;
    const move = depth - cued;
    if (Math.abs(move) < NOTICEABLE && !lean) continue;
    cued = depth;
    const weight = Math.abs(move) * (line.slices[at]!.free > 0 ? FREE_SHARE : 1);
    cues[at] = { key: depthKey(move, lean), weight };
  }
  return cues;
}

/** @param move mm, positive in */
function depthKey(move: number, lean: boolean): CueKey {
  if (lean && move < FAR) return 'lean';
  if (move > 0) return move >= FAR ? 'far-in' : 'in';
  return move <= -FAR ? 'far-out' : 'out';
}

/** One cue where the arm sets out, weighed by how far it goes before it stops or turns back. */
function carryCues(slices: readonly SliceMotion[]): (Candidate | undefined)[] {
  const cues = new Array<Candidate | undefined>(slices.length).fill(undefined);
  for (let start = 1; start < slices.length; ) {
    const direction = Math.sign(slices[start]!.armChange);
    let end = start + 1;
    while (end < slices.length && Math.sign(slices[end]!.armChange) === direction) end++;
    const travel = Math.abs(slices[end - 1]!.arm - slices[start - 1]!.arm);
    if (direction !== 0 && travel >= NOTICEABLE_CARRY) {
      cues[start] = { key: direction > 0 ? 'arm-right' : 'arm-left', weight: travel * CARRY_WEIGHT };
    }
    start = end;
  }
  return cues;
}

/** One cue where a noticeable rise begins, and one where the wrist comes level after it. */
function contourCues(slices: readonly SliceMotion[]): (Candidate | undefined)[] {
  const cues = new Array<Candidate | undefined>(slices.length).fill(undefined);
  for (let start = 0; start < slices.length; ) {
    let end = start + 1;
    if (slices[start]!.contour > 0) {
      while (end < slices.length && slices[end]!.contour > slices[end - 1]!.contour) end++;
      const weight = slices[end - 1]!.contour;
      if (weight >= NOTICEABLE_RISE) {
        cues[start] = { key: 'wrist-rises', weight };
        if (end < slices.length) cues[end] = { key: 'wrist-level', weight };
      }
    }
    start = end;
  }
  return cues;
}

/** One cue where the forearm turns round, weighed by how far it will turn, and one where the swing is missing. */
function rollCues(slices: readonly SliceMotion[]): (Candidate | undefined)[] {
  const cues = new Array<Candidate | undefined>(slices.length).fill(undefined);
  let from = slices[0]?.roll ?? 0;
  let start = 0;
  for (let at = 1; at <= slices.length; at++) {
    const before = slices[at - 1]!.roll;
    const direction = Math.sign(before - from);
    const now = slices[at]?.roll;
    if (now !== undefined && (now - before) * direction >= 0) continue;
    const turn = Math.abs(before - from);
    if (turn >= NOTICEABLE_TURN && at - 1 - start > SWING_NOTES) {
      cues[start + 1] = { key: direction > 0 ? 'turn-fifth' : 'turn-thumb', weight: turn * TURN_WEIGHT };
    }
    from = before;
    start = at - 1;
  }
  for (let at = 0; at < slices.length; at++) {
    if (slices[at]!.rollPrepare) cues[at] = { key: 'turn-afresh', weight: AFRESH_WEIGHT };
  }
  return cues;
}
