import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import { type Bias, Stages } from './stages.js';
import type { Outlook } from './terms/term.js';
import type { SliceView } from './view.js';

export type { Bias } from './stages.js';

/** mm equivalents: costs that differ by less are the same, added up in another order. */
export const ROUNDING = 1e-9;

/** The least-cost choice of candidates. */
export interface Choice {
  /** Index into `candidates` by slice. */
  readonly path: readonly number[];
  /** Index into `DEPTHS` by slice. */
  readonly depths: readonly number[];
  /** Share of the cost that the bias adds, by slice. */
  readonly biased: readonly number[];
  readonly cost: number;
}

/** Least costs of all beginnings that end in one slice, and where each comes from. */
export interface Reached {
  /** `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`; to be read before the next slice is reached. */
  readonly state: Float64Array;
  /** Candidate two slices before, by `state` index. */
  readonly before: Uint8Array;
  /** Depth of the slice before, by `[(two before * candidates before + before) * DEPTH_COUNT + depth]`. */
  readonly depth: Uint8Array;
}

/** `leastChoice` of the terms, with what a bias adds. */
export function leastCost(
  views: readonly SliceView[],
  around: readonly Outlook[],
  costs: CostTable,
  grid: DepthGrid,
  bias?: Bias,
): Choice {
  return leastChoice(new Stages(views, around, costs, grid, bias));
}

/**
 * Exact minimum of the stated cost over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards.
 *
 * @param states takes a copy of every slice's `Reached.state`
 */
export function leastChoice(stages: Stages, states?: Float64Array[]): Choice {
  const advance = forward(stages);
  const backs = stages.views.map((_, at) => {
    const { state, before, depth } = advance(at);
    states?.push(state.slice());
    return { before, depth };
  });
  return trace(stages, advance.state(), backs);
}

interface Forward {
  /** Called for every slice in turn. */
  (at: number): Reached;
  state(): Float64Array;
}

/** Walks through the slices in order; tables are kept from one call to the next. */
export function forward(stages: Stages): Forward {
  const D = DEPTH_COUNT;
  let state: Float64Array = new Float64Array(0);
  let moved = new Float64Array(0);
  const buffers = [new Float64Array(0), new Float64Array(0)];
  const slab = new Slab();
  const ranges = new Ranges();
  const size = (array: Float64Array<ArrayBuffer>, least: number): Float64Array<ArrayBuffer> =>
    array.length >= least ? array : new Float64Array(least * 2);
  const advance = (at: number): Reached => {
    const own = stages.own(at);
    if (at === 0) {
      state = Float64Array.from(own);
      return { state, before: new Uint8Array(0), depth: new Uint8Array(0) };
    }
    const [origins, rows, columns] = [stages.count(at - 2), stages.count(at - 1), stages.count(at)];
    const depth = slab.take(origins * rows * D);
    moved = size(moved, origins * rows * D);
    spread(state, stages.kernel(at), origins * rows, moved, depth);
    const steps = stages.steps(at);
    const chains = stages.chains(at);
    const cells = rows * columns * D;
    buffers[at % 2] = size(buffers[at % 2]!, cells);
    const next = buffers[at % 2]!.subarray(0, cells);
    const before = slab.take(cells);
    const pairs = origins * rows;
    const { least, most } = ranges.fit(moved, pairs);
    for (let b = 0; b < rows; b++) {
      for (let c = 0; c < columns; c++) {
        const cell = b * columns + c;
        const target = cell * D;
        let limit = Number.POSITIVE_INFINITY;
        for (let pair = b, chain = cell; pair < pairs; pair += rows, chain += rows * columns) {
          const cost = most[pair]! + chains[chain]!;
          if (cost < limit) limit = cost;
        }
        let first = true;
        for (let a = 0; a < origins; a++) {
          const chain = chains[a * rows * columns + cell]!;
          const pair = a * rows + b;
          if (least[pair]! + chain > limit) continue;
          for (let d = 0; d < D; d++) {
            const cost = moved[pair * D + d]! + chain;
            if (first || cost < next[target + d]!) {
              next[target + d] = cost;
              before[target + d] = a;
            }
          }
          first = false;
        }
        for (let d = 0; d < D; d++) next[target + d]! += steps[cell]! + own[c * D + d]!;
      }
    }
    state = next;
    return { state, before, depth };
  };
  return Object.assign(advance, { state: () => state });
}

/** Bytes, all 0, cut from large blocks: many small arrays of their own would keep the garbage collector busy. */
class Slab {
  #block = new Uint8Array(0);
  #used = 0;

  take(bytes: number): Uint8Array {
    if (this.#used + bytes > this.#block.length) {
      this.#block = new Uint8Array(Math.max(bytes, 1 << 18));
      this.#used = 0;
    }
    this.#used += bytes;
    return this.#block.subarray(this.#used - bytes, this.#used);
  }
}

/**
 * Least and greatest of the costs of each state by depth. Moving evens depths out, so that these lie close together, and
 * a state whose least costs more than another's greatest need not be followed depth by depth.
 */
export class Ranges {
  least = new Float64Array(0);
  most = new Float64Array(0);

  fit(costs: Float64Array, states: number): this {
    if (this.least.length < states) {
      this.least = new Float64Array(states * 2);
      this.most = new Float64Array(states * 2);
    }
    for (let at = 0; at < states; at++) {
      let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (let depth = at * DEPTH_COUNT; depth < (at + 1) * DEPTH_COUNT; depth++) {
        const cost = costs[depth]!;
        if (cost < low) low = cost;
        if (cost > high) high = cost;
      }
      this.least[at] = low;
      this.most[at] = high;
    }
    return this;
  }
}

/** For every state, the cheapest depth to come from: the further out, the further out, because the kernel is convex. */
function spread(
  state: Float64Array,
  kernel: Float64Array,
  states: number,
  moved: Float64Array,
  depth: Uint8Array,
): void {
  const D = DEPTH_COUNT;
  for (let at = 0; at < states; at++) {
    const start = at * D;
    let origin = 0;
    for (let to = 0; to < D; to++) {
      let best = state[start + origin]! + kernel[origin * D + to]!;
      for (let from = origin + 1; from < D; from++) {
        const cost = state[start + from]! + kernel[from * D + to]!;
        if (cost < best) {
          best = cost;
          origin = from;
        }
      }
      moved[start + to] = best;
      depth[start + to] = origin;
    }
  }
}

function trace(
  stages: Stages,
  state: Float64Array,
  backs: readonly Pick<Reached, 'before' | 'depth'>[],
): Choice {
  const D = DEPTH_COUNT;
  const count = stages.views.length;
  if (count === 0) return { path: [], depths: [], biased: [], cost: 0 };
  let best = 0;
  for (let at = 1; at < state.length; at++) if (state[at]! < state[best]!) best = at;
  const path = new Array<number>(count);
  const depths = new Array<number>(count);
  const cost = state[best]!;
  for (let at = count - 1; at >= 0; at--) {
    const { before, depth } = backs[at]!;
    const columns = stages.count(at);
    depths[at] = best % D;
    const pair = Math.floor(best / D);
    path[at] = pair % columns;
    if (at === 0) break;
    const b = Math.floor(pair / columns);
    const origin = before[best]! * stages.count(at - 1) + b;
    best = origin * D + depth[origin * D + (best % D)]!;
  }
  const biased = path.map((candidate, at) => stages.bias?.[at]?.[candidate] ?? 0);
  return { path, depths, biased, cost };
}
