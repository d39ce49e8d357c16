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

/** Slices whose states are in memory together: some 23 MB for single notes. */
const BLOCK = 16_384;

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
 *
 * Where only the bias differs from that of the last search, and the line is one block, what is still right is kept: once
 * the states of a slice all cost as much more or less than before, so do those of the slices that follow, and the way back
 * from them is the same, up to the next slice with another bias. Sums of costs are exact, so that this is seen without
 * error.
 */
export class Search {
  /** Of the last search. */
  #objective: Objective | undefined;
  /** By slice, and after the last one: the number of states before it. */
  #starts = new Uint32Array(1);
  /** Costs of the slice before a block, then of the block, but for what is in `#more`. */
  #costs = new Float64Array(0);
  /** By slice: mm equivalents to be added to the costs of all its states. */
  #more = new Float64Array(0);
  #block = 0;
  /** By block: the costs of its last slice. */
  #edges: Float64Array[] = [];
  readonly #trails: Trail[] = [];
  /** Costs of the states of a slice while they are found. */
  #reached = new Float64Array(0);
  readonly #moves = new DepthMoves();
  readonly #recursion = new Recursion(this.#moves);

  find(objective: Objective): Choice {
    const last = this.#objective;
    this.#objective = objective;
    if (last !== undefined && last.views.length <= BLOCK && objective.isButForBias(last)) {
      this.#renew(objective, last);
    } else {
      this.#layOut(objective);
      for (let block = 0; block * BLOCK < objective.views.length; block++) this.#fill(objective, block);
    }
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
    const costs = this.#costs;
    const shift = this.#shift(block);
    const more = this.#more[at]!;
    const start = this.#starts[at]! - shift;
    const end = this.#starts[at + 1]! - shift;
    if (more !== 0) for (let cell = start; cell < end; cell++) costs[cell]! += more;
    this.#more[at] = 0;
    return { costs, start, end };
  }

  #layOut(objective: Objective): void {
    const count = objective.views.length;
    this.#edges = [];
    this.#starts = new Uint32Array(count + 1);
    this.#more = new Float64Array(count);
    let most = 0;
    for (let at = 0; at < count; at++) {
      const states = objective.count(at - 1) * objective.count(at) * D;
      this.#starts[at + 1] = this.#starts[at]! + states;
      most = Math.max(most, states);
    }
    if (this.#reached.length < most) this.#reached = new Float64Array(most);
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

  /** Finds anew what another bias changes in the states of a line that is one block. */
  #renew(objective: Objective, last: Objective): void {
    const more = this.#more;
    // Whether the states of the slice before all cost as much more than in the last search, and how much.
    let settled = true;
    let difference = 0;
    for (let at = 0; at < more.length; at++) {
      if (settled && objective.hasSameBias(last, at)) {
        more[at]! += difference;
        continue;
      }
      const own = this.#advance(objective, at, 0, this.#trails[0]!);
      const was = more[at]!;
      more[at] = more[at - 1] ?? 0;
      difference = own + more[at]! - was;
      settled = !Number.isNaN(difference);
    }
  }

  /**
   * Finds the states of a slice from those of the slice before.
   *
   * @returns how much more they all cost than those that were there; NaN where they do not all cost as much more
   */
  #advance(objective: Objective, at: number, shift: number, { before, depth: origins }: Trail): number {
    const costs = this.#costs;
    const reached = this.#reached;
    const start = this.#starts[at]! - shift;
    const own = objective.own(at);
    const first = objective.ownStart(at);
    const bias = objective.bias?.[at];
    const sources = objective.count(at - 2);
    const rows = objective.count(at - 1);
    const columns = objective.count(at);
    if (at === 0) {
      for (let cell = 0; cell < columns * D; cell++)
        costs[cell] = own[first + cell]! + (bias?.[Math.floor(cell / D)] ?? 0);
      return Number.NaN;
    }
    const steps = objective.steps(at);
    this.#moves.begin(costs, this.#starts[at - 1]! - shift, sources * rows, objective.kernel(at), origins);
    this.#recursion.take({
      middles: rows,
      sources: { count: sources, pair: rows, chain: rows * columns, middle: 1 },
      targets: { count: columns, pair: 1, chain: 1, middle: columns },
      chains: objective.chains(at),
      middleChain: columns,
      out: reached,
      chosen: before,
      start,
    });
    let difference = Number.NaN;
    let alike = true;
    for (let row = 0, cell = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const added = steps[row * columns + column]! + (bias === undefined ? 0 : bias[column]!);
        const above = first + column * D;
        for (let depth = 0; depth < D; depth++, cell++) {
          const cost = reached[cell]! + (added + own[above + depth]!);
          const more = cost - costs[start + cell]!;
          if (cell === 0) difference = more;
          else if (more !== difference) alike = false;
          costs[start + cell] = cost;
        }
      }
    }
    return alike ? difference : Number.NaN;
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
      const shift = this.#shift(blockOf(at));
      const trail = this.#trails[blockOf(at)]!;
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
