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
 * the reader is nearer to it in sum. A cue stands where the reader's own move begins: none is there only to stop a move.
 * Exact: dynamic programming over where the reader may be and is heading.
 *
 * @param tolerances mm, by slice
 */
export function fewestCues(steps: readonly ReaderStep[], tolerances: readonly number[]): readonly DepthCue[] {
  let ways: readonly Way[] = [];
  for (let at = 0; at < steps.length; at++) ways = waysOn(ways, steps[at]!, tolerances[at]!);
  let best = ways[0];
  for (const way of ways) if (way.cost < best!.cost) best = way;
  const cues: DepthCue[] = [];
  let slice = steps.length - 1;
  for (let way = best; way; way = way.before, slice--) {
    if (way.cue !== 0) cues.push({ slice, direction: way.cue });
  }
  return cues.reverse();
}

function waysOn(ways: readonly Way[], step: ReaderStep, tolerance: number): readonly Way[] {
  const { planned } = step;
  if (ways.length === 0)
    return [{ state: { depth: planned, heading: 0 }, cost: 0, cue: 0, before: undefined }];
  const best = new Map<number, Way>();
  for (const way of ways) {
    offer(best, way, step, 0, tolerance);
    if (step.fresh || way.state.depth === planned) continue;
    offer(best, way, step, planned > way.state.depth ? 1 : -1, tolerance);
  }
  return [...best.values()];
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
