import { DEPTH_COUNT } from './depth.js';
import { Fold } from './fold.js';
import { bytes, numbers } from './slab.js';
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

/**
 * Exact minimum of the stated cost over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards.
 *
 * @param states takes the least costs of all beginnings that end in each slice:
 *   `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`
 */
export function leastChoice(stages: Stages, states?: Float64Array[]): Choice {
  const forward = new Forward(stages);
  const slab = numbers();
  for (let at = 0; at < stages.views.length; at++) {
    const state = forward.advance(at);
    if (states) {
      const copy = slab.take(state.length);
      copy.set(state);
      states.push(copy);
    }
  }
  return trace(stages, forward);
}

/** Walks through the slices in order. */
class Forward extends Fold {
  /** Of the slice reached last; to be read before the next one is reached. */
  state: Float64Array = new Float64Array(0);
  /** Candidate two slices before, by slice and `state` index. */
  readonly before: Uint8Array[] = [];
  /** Depth of the slice before, by slice and `[(two before * candidates before + before) * DEPTH_COUNT + depth]`. */
  readonly depth: Uint8Array[] = [];
  readonly #buffers = [new Float64Array(0), new Float64Array(0)];
  readonly #slab = bytes();
  #kernel: Float64Array = new Float64Array(0);
  #origin: Uint8Array = new Uint8Array(0);

  constructor(private readonly stages: Stages) {
    super();
  }

  /** To be called for every slice in turn. */
  advance(at: number): Float64Array {
    const { stages } = this;
    const own = stages.own(at);
    if (at === 0) {
      this.state = own.slice();
      this.before.push(NONE);
      this.depth.push(NONE);
      return this.state;
    }
    const [origins, rows, columns] = [stages.count(at - 2), stages.count(at - 1), stages.count(at)];
    this.#depart(at, origins * rows, Math.max(origins, columns));
    const cells = rows * columns * D;
    const before = this.#slab.take(cells);
    const next = this.#room(at, cells);
    const [steps, chains] = [stages.steps(at), stages.chains(at)];
    const sources = { count: origins, pair: rows, chain: rows * columns, middle: 1 };
    const targets = { count: columns, pair: 1, chain: 1, middle: columns };
    for (let b = 0; b < rows; b++) this.fold(b, sources, targets, chains, b * columns, next, before);
    for (let pair = 0; pair < rows * columns; pair++) {
      const start = (pair % columns) * D;
      for (let depth = 0; depth < D; depth++) next[pair * D + depth]! += steps[pair]! + own[start + depth]!;
    }
    this.state = next;
    this.before.push(before);
    this.depth.push(this.#origin);
    return next;
  }

  /** Makes ready to move from the states of the slice before. */
  #depart(at: number, pairs: number, candidates: number): void {
    this.makeRoom(pairs, candidates);
    this.#kernel = this.stages.kernel(at);
    this.#origin = this.#slab.take(pairs * D);
    const { state, least } = this;
    for (let pair = 0; pair < pairs; pair++) {
      let low = Number.POSITIVE_INFINITY;
      for (let cell = pair * D; cell < (pair + 1) * D; cell++) if (state[cell]! < low) low = state[cell]!;
      least[pair] = low;
    }
  }

  #room(at: number, cells: number): Float64Array {
    if (this.#buffers[at % 2]!.length < cells) this.#buffers[at % 2] = new Float64Array(2 * cells);
    return this.#buffers[at % 2]!.subarray(0, cells);
  }

  /** For every depth the cheapest one to come from: the further out, the further out, because the kernel is convex. */
  protected override move(pair: number): void {
    const { state, moved } = this;
    const [kernel, origins] = [this.#kernel, this.#origin];
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
      origins[start + to] = origin;
    }
  }
}

const NONE = new Uint8Array(0);

function trace(stages: Stages, { state, before, depth }: Forward): Choice {
  const count = stages.views.length;
  if (count === 0) return { path: [], depths: [], biased: [], cost: 0 };
  let best = 0;
  for (let at = 1; at < state.length; at++) if (state[at]! < state[best]!) best = at;
  const path = new Array<number>(count);
  const depths = new Array<number>(count);
  const cost = state[best]!;
  for (let at = count - 1; at >= 0; at--) {
    const columns = stages.count(at);
    depths[at] = best % D;
    const pair = Math.floor(best / D);
    path[at] = pair % columns;
    if (at === 0) break;
    const b = Math.floor(pair / columns);
    const origin = before[at]![best]! * stages.count(at - 1) + b;
    best = origin * D + depth[at]![origin * D + (best % D)]!;
  }
  const biased = path.map((candidate, at) => stages.bias?.[at]?.[candidate] ?? 0);
  return { path, depths, biased, cost };
}
