import type { Line } from '../hands/line.js';
import type { Crossing, MotionPlan, SliceMotion } from '../motion/plan.js';
import type { CueKey } from './keys.js';

/** A cue that could be printed. */
export interface Candidate {
  readonly key: CueKey;
  /** How much depends on it, in mm of the move it asks for or of a crossing's difficulty. */
  readonly weight: number;
}

/** Sorts what has a weight. */
export function weightierFirst(a: Pick<Candidate, 'weight'>, b: Pick<Candidate, 'weight'>): number {
  return b.weight - a.weight;
}

/** All numbers here in mm and from memory. Smallest depth move that a player is told of, and that counts as far. */
const NOTICEABLE = 3;
const FAR = 25;
/** A crossing asks for attention even where it is easy. */
const CROSSING_WEIGHT = 8;
/** A move made while the hand is off the keys needs less telling. */
const FREE_SHARE = 0.5;
/** Smallest sideways travel of the arm in one sense that a player is told of, and its weight against depth. */
const NOTICEABLE_CARRY = 40;
const CARRY_SHARE = 0.15;
/** Smallest rise of the wrist that a player is told of: two fingers between thumbs. */
const NOTICEABLE_RISE = 5;
/**
 * Smallest turn of the forearm told of, out of the 2 between both ends, over two notes at least: from one note to the
 * next it swings by itself; weight of a full turn.
 */
const NOTICEABLE_TURN = 0.7;
const SWING_NOTES = 1;
const TURN_WEIGHT = 6;
const AFRESH_WEIGHT = 8;

/** What could be said at every slice of a line. */
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

/** Small moves in one sense add up until they are worth a word; a move told of is not told again. */
function depthCues(line: Line, slices: readonly SliceMotion[]): (Candidate | undefined)[] {
  const cues = new Array<Candidate | undefined>(slices.length).fill(undefined);
  let told = slices[0]?.depth ?? 0;
  for (let at = 0; at < slices.length; at++) {
    const { depth, depthChange, lean } = slices[at]!;
    if (depthChange === 0) continue;
    // The hand has turned round before its small moves were worth a word.
    if (Math.sign(depth - told) !== Math.sign(depthChange)) told = depth - depthChange;
    const way = depth - told;
    if (Math.abs(way) < NOTICEABLE && !lean) continue;
    told = depth;
    const weight = Math.abs(way) * (line.slices[at]!.free > 0 ? FREE_SHARE : 1);
    cues[at] = { key: depthKey(way, lean), weight };
  }
  return cues;
}

function depthKey(way: number, lean: boolean): CueKey {
  if (lean && way < FAR) return 'lean';
  if (way > 0) return way >= FAR ? 'far-in' : 'in';
  return way <= -FAR ? 'far-out' : 'out';
}

/** One cue where the arm sets out, weighed by how far it goes before it stops or turns back. */
function carryCues(slices: readonly SliceMotion[]): (Candidate | undefined)[] {
  const cues = new Array<Candidate | undefined>(slices.length).fill(undefined);
  for (let start = 1; start < slices.length; ) {
    const sense = Math.sign(slices[start]!.armChange);
    let end = start + 1;
    while (end < slices.length && Math.sign(slices[end]!.armChange) === sense) end++;
    const way = Math.abs(slices[end - 1]!.arm - slices[start - 1]!.arm);
    if (sense !== 0 && way >= NOTICEABLE_CARRY) {
      cues[start] = { key: sense > 0 ? 'arm-right' : 'arm-left', weight: way * CARRY_SHARE };
    }
    start = end;
  }
  return cues;
}

/** One cue where a rise begins that is worth a word, and one where the wrist comes level after it. */
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
    const sense = Math.sign(before - from);
    const now = slices[at]?.roll;
    if (now !== undefined && (now - before) * sense >= 0) continue;
    const way = Math.abs(before - from);
    if (way >= NOTICEABLE_TURN && at - 1 - start > SWING_NOTES) {
      cues[start + 1] = { key: sense > 0 ? 'turn-fifth' : 'turn-thumb', weight: way * TURN_WEIGHT };
    }
    from = before;
    start = at - 1;
  }
  for (let at = 0; at < slices.length; at++) {
    if (slices[at]!.rollPrepare) cues[at] = { key: 'turn-afresh', weight: AFRESH_WEIGHT };
  }
  return cues;
}
