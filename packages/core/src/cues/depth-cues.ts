import type { Line } from '../hands/line.js';
import type { MotionPlan } from '../motion/plan.js';
import type { Density } from '../options/options.js';
import { type DepthCue, fewestCues } from './fewest.js';
import type { CueKey } from './keys.js';
import {
  type Direction,
  type ReaderState,
  type ReaderStep,
  read,
  readerSteps,
  TOLERANCES,
  tolerance,
} from './reader.js';

/** Reader's travel in mm up to which a move in is a lean, and from which a move is far: from memory. */
const LARGEST_LEAN = 8;
const FAR = 30;
/** mm from which a hand that comes back of itself has left a move behind: the nearest tolerance. */
const CAME_BACK = TOLERANCES.every;
/** Measures after which a move is no longer remembered over a rest: from memory. */
const REMEMBERED_MEASURES = 8;

/** A cue in or out in words, with what the reader does at it. */
export interface DepthMove extends DepthCue {
  readonly key: CueKey;
  /** Last slice at which the reader still moves. */
  readonly end: number;
  /** mm. */
  readonly travel: number;
}

/** The fewest cues of a density. */
export function depthMoves(line: Line, plan: MotionPlan, density: Density): readonly DepthMove[] {
  const steps = readerSteps(line, plan);
  const tolerances: number[] = [];
  for (const { seconds } of line.slices) tolerances.push(tolerance(density, seconds));
  return inWords(line, steps, fewestCues(steps, tolerances));
}

/** Reads along and tells of every cue what it makes the reader do. */
function inWords(
  { slices }: Line,
  steps: readonly ReaderStep[],
  cues: readonly DepthCue[],
): readonly DepthMove[] {
  const directions = new Map<number, Direction>();
  for (const { slice, direction } of cues) directions.set(slice, direction);
  const moves: DepthMove[] = [];
  let state: ReaderState = { depth: steps[0]?.planned ?? 0, heading: 0 };
  let from = state.depth;
  let end = 0;
  // The last cue, and the furthest that the reader has been that way since.
  let last: DepthCue | undefined;
  let furthest = 0;
  // The last slice at which the hand made a fresh start.
  let fresh = 0;
  let open: DepthCue | undefined;
  let further = false;
  const close = (): void => {
    if (!open) return;
    const travel = Math.abs(state.depth - from);
    moves.push({ ...open, key: keyOf(open.direction, travel, further), end, travel });
    open = undefined;
  };
  /** Whether the hand is still where the last cue sent it, and that not forgotten over a rest. */
  const isStillThere = (at: number): boolean =>
    last !== undefined &&
    (furthest - state.depth) * last.direction <= CAME_BACK &&
    (fresh <= last.slice || slices[at]!.measure - slices[last.slice]!.measure <= REMEMBERED_MEASURES);
  for (let at = 0; at < steps.length; at++) {
    const cue = directions.get(at) ?? 0;
    const next = read(state, steps[at]!, cue);
    if (next.heading === 0 || cue !== 0) close();
    if (steps[at]!.fresh) fresh = at;
    if (cue !== 0) {
      further = cue === last?.direction && isStillThere(at);
      open = last = { slice: at, direction: cue };
      from = furthest = state.depth;
    }
    if (open && next.depth !== state.depth) end = at;
    state = next;
    if (last && (state.depth - furthest) * last.direction > 0) furthest = state.depth;
  }
  close();
  return moves;
}

function keyOf(direction: Direction, travel: number, further: boolean): CueKey {
  if (direction > 0) {
    if (further) return 'further-in';
    return travel <= LARGEST_LEAN ? 'lean' : travel >= FAR ? 'far-in' : 'in';
  }
  if (further) return 'further-out';
  return travel >= FAR ? 'far-out' : 'out';
}

/** Where a cue in or out sends the forearm; undefined for any other cue. */
export function directionOf(key: CueKey): 'in' | 'out' | undefined {
  if (key === 'lean' || key === 'in' || key === 'far-in' || key === 'further-in') return 'in';
  return key === 'out' || key === 'far-out' || key === 'further-out' ? 'out' : undefined;
}
