import { type Direction, type ReaderState, type ReaderStep, read } from './reader.js';

/** A printed sign that sends the reader in or out. */
export interface DepthCue {
  readonly slice: number;
  readonly direction: Direction;
}

/** More than all deviations of a line can add up to. */
const ONE_CUE = 2 ** 32;

/** Notes, and seconds, by which a cue stands at most before the note at which the reader would be too far off: from memory. */
const LEAD_NOTES = 4;
const LEAD_SECONDS = 1.5;
/** mm that a forearm moves at a note so that its player feels it: from memory. */
const LEAST_FELT = 4;

/** The best way in which the reader may have come to a state. */
interface Way {
  readonly state: ReaderState;
  /** Cues and, among as many, mm of deviation. */
  readonly cost: number;
  readonly cue: Direction | 0;
  readonly before: Way | undefined;
}

/**
 * The fewest cues with which the reader is never further from the plan than the tolerance; of as few, those with which
 * the reader is nearer to it in sum. A cue stands where the reader's own move begins, with the plan's move or one note
 * before it: none is there only to stop a move, and none makes good what the plan has done and left behind. None comes
 * sooner before the note that needs it, or the end of the plan's move, than can be kept in mind.
 * Exact: dynamic programming over where the reader may be and is heading.
 *
 * @param tolerances mm, by slice
 */
export function fewestCues(steps: readonly ReaderStep[], tolerances: readonly number[]): readonly DepthCue[] {
  let ways: readonly Way[] = [];
  for (let at = 0; at < steps.length; at++) ways = waysOn(ways, steps, at, tolerances);
  let best = ways[0];
  for (const way of ways) if (way.cost < best!.cost) best = way;
  const cues: DepthCue[] = [];
  let slice = steps.length - 1;
  for (let way = best; way; way = way.before, slice--) {
    if (way.cue !== 0) cues.push({ slice, direction: way.cue });
  }
  return cues.reverse();
}

function waysOn(
  ways: readonly Way[],
  steps: readonly ReaderStep[],
  at: number,
  tolerances: readonly number[],
): readonly Way[] {
  const step = steps[at]!;
  const tolerance = tolerances[at]!;
  const { planned } = step;
  if (ways.length === 0)
    return [{ state: { depth: planned, heading: 0 }, cost: 0, cue: 0, before: undefined }];
  const best = new Map<number, Way>();
  const cue = cueAt(steps, at);
  for (const way of ways) {
    offer(best, way, step, 0, tolerance);
    const { depth } = way.state;
    if (cue !== 0 && (planned - depth) * cue > 0 && isInTime(depth, cue, steps, at, tolerances))
      offer(best, way, step, cue, tolerance);
  }
  return [...best.values()];
}

/** Which way a cue may send the reader at a step: with the plan, or where that rests, with its next step; 0 for none. */
function cueAt(steps: readonly ReaderStep[], at: number): Direction | 0 {
  const { change, fresh } = steps[at]!;
  if (fresh) return 0;
  if (change !== 0) return change > 0 ? 1 : -1;
  const next = steps[at + 1];
  if (next === undefined || next.fresh || next.change === 0) return 0;
  return next.change > 0 ? 1 : -1;
}

/**
 * Whether a cue stands in time: a reader who stays would be too far from the plan within the lead, or the plan's move ends
 * within it, and is felt: the plan's at this note or the next, the reader's at its end. Otherwise a later note of the same move
 * leads the reader as well, or the move is none.
 */
function isInTime(
  depth: number,
  cue: Direction,
  steps: readonly ReaderStep[],
  at: number,
  tolerances: readonly number[],
): boolean {
  let seconds = 0;
  for (let next = at; next < steps.length; next++) {
    const { planned, change, fresh, seconds: apart } = steps[next]!;
    if (next > at) {
      if (fresh || change * cue <= 0) return isFelt(steps[next - 1]!.planned - depth);
      seconds += apart;
      if (next - at > LEAD_NOTES || seconds > LEAD_SECONDS) return false;
    }
    if (Math.abs(planned - depth) > tolerances[next]!) return true;
    if (next === at + 1 && !isFelt(steps[at]!.change) && !isFelt(change)) return false;
  }
  return isFelt(steps.at(-1)!.planned - depth);
}

function isFelt(mm: number): boolean {
  return Math.abs(mm) >= LEAST_FELT;
}

function offer(
  best: Map<number, Way>,
  before: Way,
  step: ReaderStep,
  cue: Direction | 0,
  tolerance: number,
): void {
  const state = read(before.state, step, cue);
  const deviation = Math.abs(state.depth - step.planned);
  if (deviation > tolerance) return;
  const cost = before.cost + deviation + (cue === 0 ? 0 : ONE_CUE);
  const id = state.depth * 3 + state.heading;
  const known = best.get(id);
  if (known === undefined || cost < known.cost) best.set(id, { state, cost, cue, before });
}
