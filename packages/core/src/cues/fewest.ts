import { type Direction, type ReaderState, type ReaderStep, read } from './reader.js';

/** A printed sign that sends the reader in or out. */
export interface DepthCue {
  readonly slice: number;
  readonly direction: Direction;
}

/** More than all deviations of a line can add up to. */
const ONE_CUE = 2 ** 32;

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
 * before it: none is there only to stop a move, and none makes good what the plan has done and left behind.
 * Exact: dynamic programming over where the reader may be and is heading.
 *
 * @param tolerances mm, by slice
 */
export function fewestCues(steps: readonly ReaderStep[], tolerances: readonly number[]): readonly DepthCue[] {
  let ways: readonly Way[] = [];
  for (let at = 0; at < steps.length; at++) ways = waysOn(ways, steps, at, tolerances[at]!);
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
  tolerance: number,
): readonly Way[] {
  const step = steps[at]!;
  const { planned } = step;
  if (ways.length === 0)
    return [{ state: { depth: planned, heading: 0 }, cost: 0, cue: 0, before: undefined }];
  const best = new Map<number, Way>();
  const cue = cueAt(steps, at);
  for (const way of ways) {
    offer(best, way, step, 0, tolerance);
    if (cue !== 0 && (planned - way.state.depth) * cue > 0) offer(best, way, step, cue, tolerance);
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
