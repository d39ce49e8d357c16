import type { Choice } from '../cost/choice.js';
import { DEPTH_COUNT } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';
import { DepthMoves } from './depth-moves.js';
import { Recursion } from './recursion.js';

const D = DEPTH_COUNT;

/** The least-cost choice, where the `Search` itself is not needed any further. */
export function leastChoice(objective: Objective): Choice {
  return new Search().find(objective);
}

/** Slices whose states are in memory together: some 7 MB for single notes. */
const BLOCK = 4096;

/** What tells the way back through a block, by state of it and of the slice before it. */
interface Trail {
  /** The candidate two slices before. */
  readonly before: Uint8Array;
  /** By state of the slice before, but with the depth moved to: the depth moved from. */
  readonly depth: Uint8Array;
}

/**
 * Exact minimum of an objective over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards. What is kept by
 * state lies in one array a block of slices, since an array a slice costs more, and the next search writes over it. Costs
 * are in memory for one block at a time: for all of a very long line they would take more than all the rest.
 */
export class Search {
  /** Of the last search. */
  #objective: Objective | undefined;
  /** By slice, and after the last one: the number of states before it. */
  #starts = new Uint32Array(1);
  /** Costs of the slice before a block, then of the block. */
  #costs = new Float64Array(0);
  #block = 0;
  /** By block: the costs of its last slice. */
  #edges: Float64Array[] = [];
  readonly #trails: Trail[] = [];
  readonly #moves = new DepthMoves();
  readonly #recursion = new Recursion(this.#moves);

  find(objective: Objective): Choice {
    this.#layOut(objective);
    for (let block = 0; block * BLOCK < objective.views.length; block++) this.#fill(objective, block);
    return this.#trace(objective);
  }

  /**
   * After a search, the least costs of all prefixes that end in a slice, in an array that the next call may overwrite:
   * `[start + (candidate before * candidates + candidate) * DEPTH_COUNT + depth]`. To be asked for from the last slice to
   * the first: each block is worked out anew once.
   */
  statesOf(at: number): { readonly costs: Float64Array; readonly start: number; readonly end: number } {
    const block = blockOf(at);
    if (block !== this.#block) this.#fill(this.#objective!, block);
    const shift = this.#shift(block);
    return { costs: this.#costs, start: this.#starts[at]! - shift, end: this.#starts[at + 1]! - shift };
  }

  #layOut(objective: Objective): void {
    const count = objective.views.length;
    this.#objective = objective;
    this.#edges = [];
    this.#starts = new Uint32Array(count + 1);
    for (let at = 0; at < count; at++)
      this.#starts[at + 1] = this.#starts[at]! + objective.count(at - 1) * objective.count(at) * D;
  }

  /** Where the states of a block, and of the slice before it, begin among those of the line. */
  #shift(block: number): number {
    return this.#starts[Math.max(0, block * BLOCK - 1)]!;
  }

  #fill(objective: Objective, block: number): void {
    const first = block * BLOCK;
    const end = Math.min(first + BLOCK, objective.views.length);
    const shift = this.#shift(block);
    const all = this.#starts[end]! - shift;
    if (this.#costs.length < all) this.#costs = new Float64Array(all);
    if ((this.#trails[block]?.before.length ?? 0) < all)
      this.#trails[block] = { before: new Uint8Array(all), depth: new Uint8Array(all) };
    if (block > 0) this.#costs.set(this.#edges[block - 1]!);
    for (let at = first; at < end; at++) this.#advance(objective, at, shift, this.#trails[block]!);
    if (end < objective.views.length)
      this.#edges[block] = this.#costs.slice(this.#starts[end - 1]! - shift, all);
    this.#block = block;
  }

  /** Finds the states of a slice from those of the slice before. */
  #advance(objective: Objective, at: number, shift: number, { before, depth: origins }: Trail): void {
    const costs = this.#costs;
    const start = this.#starts[at]! - shift;
    const own = objective.own(at);
    const [sources, rows, columns] = [objective.count(at - 2), objective.count(at - 1), objective.count(at)];
    if (at === 0) {
      for (let cell = 0; cell < columns * D; cell++) costs[start + cell] = own[cell]!;
      return;
    }
    const steps = objective.steps(at);
    this.#moves.begin(costs, this.#starts[at - 1]! - shift, sources * rows, objective.kernel(at), origins);
    this.#recursion.take({
      middles: rows,
      sources: { count: sources, pair: rows, chain: rows * columns, middle: 1 },
      targets: { count: columns, pair: 1, chain: 1, middle: columns },
      chains: objective.chains(at),
      middleChain: columns,
      out: costs,
      start,
      chosen: before,
    });
    for (let pair = 0, cell = start; pair < rows * columns; pair++) {
      const step = steps[pair]!;
      const above = (pair % columns) * D;
      for (let depth = 0; depth < D; depth++, cell++) costs[cell]! += step + own[above + depth]!;
    }
  }

  /** Goes back from the cheapest state of the last slice. */
  #trace(objective: Objective): Choice {
    const count = objective.views.length;
    if (count === 0) return { path: [], depths: [], biased: [], cost: 0 };
    const { costs, start, end } = this.statesOf(count - 1);
    let best = start;
    for (let cell = best + 1; cell < end; cell++) if (costs[cell]! < costs[best]!) best = cell;
    const path = new Array<number>(count);
    const depths = new Array<number>(count);
    let state = best - start;
    for (let at = count - 1; at >= 0; at--) {
      const columns = objective.count(at);
      const depth = state % D;
      const pair = (state - depth) / D;
      depths[at] = depth;
      path[at] = pair % columns;
      if (at === 0) break;
      const [shift, trail] = [this.#shift(blockOf(at)), this.#trails[blockOf(at)]!];
      const earlier = trail.before[this.#starts[at]! - shift + state]! * objective.count(at - 1);
      const origin = (earlier + Math.floor(pair / columns)) * D;
      state = origin + trail.depth[this.#starts[at - 1]! - shift + origin + depth]!;
    }
    const biased = new Array<number>(count);
    for (let at = 0; at < count; at++) biased[at] = objective.bias?.[at]?.[path[at]!] ?? 0;
    return { path, depths, biased, cost: costs[best]! };
  }
}

function blockOf(at: number): number {
  return Math.floor(at / BLOCK);
}
