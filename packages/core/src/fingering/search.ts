import { DEPTH_COUNT } from './depth.js';
import { Fold, leastByDepth } from './fold.js';
import type { Stages } from './stages.js';

const D = DEPTH_COUNT;

export type { Bias } from './stages.js';

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
interface Reached {
  /** `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`; to be read before the next slice is reached. */
  readonly state: Float64Array;
  /** Candidate two slices before, by `state` index. */
  readonly before: Uint8Array;
  /** Depth of the slice before, by `[(two before * candidates before + before) * DEPTH_COUNT + depth]`. */
  readonly depth: Uint8Array;
}

/**
 * Exact minimum of the stated cost over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards.
 *
 * @param states takes a copy of every slice's `Reached.state`
 */
export function leastChoice(stages: Stages, states?: Float64Array[]): Choice {
  const forward = new Forward(stages);
  const backs = stages.views.map((_, at) => {
    const { state, before, depth } = forward.advance(at);
    states?.push(state.slice());
    return { before, depth };
  });
  return trace(stages, forward.state, backs);
}

/** Walks through the slices in order; tables are kept from one call to the next. */
class Forward extends Fold {
  state: Float64Array = new Float64Array(0);
  readonly #buffers = [new Float64Array(0), new Float64Array(0)];
  readonly #slab = new Slab();
  #kernel: Float64Array = new Float64Array(0);
  #depth: Uint8Array = new Uint8Array(0);

  constructor(private readonly stages: Stages) {
    super();
  }

  /** To be called for every slice in turn. */
  advance(at: number): Reached {
    const { stages } = this;
    const own = stages.own(at);
    if (at === 0) {
      this.state = own.slice();
      return { state: this.state, before: new Uint8Array(0), depth: this.#depth };
    }
    const [origins, rows, columns] = [stages.count(at - 2), stages.count(at - 1), stages.count(at)];
    this.makeRoom(origins * rows);
    leastByDepth(this.state, origins * rows, this.least);
    this.#kernel = stages.kernel(at);
    this.#depth = this.#slab.take(origins * rows * D);
    const cells = rows * columns * D;
    if (this.#buffers[at % 2]!.length < cells) this.#buffers[at % 2] = new Float64Array(2 * cells);
    const next = this.#buffers[at % 2]!.subarray(0, cells);
    const before = this.#slab.take(cells);
    const [steps, chains] = [stages.steps(at), stages.chains(at)];
    for (let b = 0; b < rows; b++) {
      const sources = { count: origins, first: b, pair: rows, chain: rows * columns };
      const targets = { count: columns, first: b * columns, pair: 1, chain: 1 };
      this.fold(sources, targets, chains, b * columns, next, before);
    }
    for (let pair = 0; pair < rows * columns; pair++) {
      const start = (pair % columns) * D;
      for (let depth = 0; depth < D; depth++) next[pair * D + depth]! += steps[pair]! + own[start + depth]!;
    }
    this.state = next;
    return { state: next, before, depth: this.#depth };
  }

  /** For every depth the cheapest one to come from: the further out, the further out, because the kernel is convex. */
  protected override move(pair: number): void {
    const { state, moved } = this;
    const kernel = this.#kernel;
    const depth = this.#depth;
    const start = pair * D;
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

function trace(
  stages: Stages,
  state: Float64Array,
  backs: readonly Pick<Reached, 'before' | 'depth'>[],
): Choice {
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
