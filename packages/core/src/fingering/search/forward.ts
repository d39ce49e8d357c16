import type { Choice } from '../cost/choice.js';
import { DEPTH_COUNT } from '../cost/depth.js';
import type { Bias, Objective } from '../cost/objective.js';
import { Recursion } from './recursion.js';

const D = DEPTH_COUNT;

/** The least choice of a `Search` that is not needed any further. */
export function leastChoice(objective: Objective): Choice {
  return new Search().find(objective);
}

/**
 * Exact minimum of the stated cost over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards. What is kept by
 * state lies in one array for the line, since an array a slice costs more, and the next search writes over it.
 */
export class Search extends Recursion {
  /**
   * Least costs of all beginnings that end in each slice, but for the slice's base:
   * `[starts[slice] + (candidate before * candidates + candidate) * DEPTH_COUNT + depth]`.
   */
  states = new Float64Array(0);
  /** By slice, and behind the last one. */
  starts = new Uint32Array(1);
  /** By slice: what its states cost on top of `states`. */
  bases = new Float64Array(0);
  /** Slices that the last search had not to search. */
  taken = 0;
  #bias: Bias | undefined;
  /** Candidate two slices before. */
  #before = new Uint8Array(0);
  /** By state of the slice before but with the depth moved to: the depth moved from. */
  #depth = new Uint8Array(0);
  /** States of a slice that are yet to be compared with those of the search before. */
  #fresh = new Float64Array(0);
  /** Where the states of the slice before begin, and the moves from there. */
  #from = 0;
  #kernel: Float64Array = this.#fresh;

  find(objective: Objective): Choice {
    this.#layOut(objective);
    this.#bias = objective.bias;
    this.taken = 0;
    for (let at = 0; at < objective.views.length; at++)
      this.#advance(objective, at, this.states, this.starts[at]!);
    return this.#trace(objective);
  }

  /**
   * The least choice under another bias of the line that was searched last. Where the biases are the same, and what came
   * before makes no difference any more but for a constant, nothing is searched again.
   */
  again(objective: Objective): Choice {
    this.taken = 0;
    /** What the slice reached last costs more than in the search before, where all its states do so alike. */
    let gap: number | undefined = 0;
    for (let at = 0; at < objective.views.length; at++) {
      if (gap !== undefined && objective.sameBias(this.#bias, at)) {
        this.bases[at]! += gap;
        this.taken++;
      } else {
        this.#advance(objective, at, this.#fresh, 0);
        gap = this.#renew(at);
      }
    }
    this.#bias = objective.bias;
    return this.#trace(objective);
  }

  #layOut(objective: Objective): void {
    const count = objective.views.length;
    this.starts = new Uint32Array(count + 1);
    this.bases = new Float64Array(count);
    let most = 0;
    for (let at = 0; at < count; at++) {
      const states = objective.count(at - 1) * objective.count(at) * D;
      this.starts[at + 1] = this.starts[at]! + states;
      most = Math.max(most, states);
    }
    const all = this.starts[count]!;
    if (this.states.length < all) {
      this.states = new Float64Array(all);
      this.#before = new Uint8Array(all);
      this.#depth = new Uint8Array(all);
    }
    if (this.#fresh.length < most) this.#fresh = new Float64Array(most);
  }

  /** Finds the states of a slice on top of the base of the slice before: `into[start + state]`. */
  #advance(objective: Objective, at: number, into: Float64Array, start: number): void {
    const own = objective.own(at);
    const [origins, rows, columns] = [objective.count(at - 2), objective.count(at - 1), objective.count(at)];
    if (at === 0) {
      for (let cell = 0; cell < columns * D; cell++) into[start + cell] = own[cell]!;
      return;
    }
    this.#kernel = objective.kernel(at);
    this.#depart(at, origins * rows, Math.max(origins, columns));
    const [steps, chains] = [objective.steps(at), objective.chains(at)];
    const sources = { count: origins, pair: rows, chain: rows * columns, middle: 1 };
    const targets = { count: columns, pair: 1, chain: 1, middle: columns };
    const first = this.starts[at]!;
    for (let b = 0; b < rows; b++)
      this.advanceOne(b, sources, targets, chains, b * columns, into, start, this.#before, first);
    for (let pair = 0, cell = start; pair < rows * columns; pair++) {
      const step = steps[pair]!;
      const above = (pair % columns) * D;
      for (let depth = 0; depth < D; depth++, cell++) into[cell] = into[cell]! + (step + own[above + depth]!);
    }
  }

  /** Makes ready to move from the states of the slice before. */
  #depart(at: number, pairs: number, candidates: number): void {
    this.makeRoom(pairs, candidates);
    this.#from = this.starts[at - 1]!;
    const { states, least } = this;
    for (let pair = 0, cell = this.#from; pair < pairs; pair++) {
      let low = Number.POSITIVE_INFINITY;
      for (const end = cell + D; cell < end; cell++) if (states[cell]! < low) low = states[cell]!;
      least[pair] = low;
    }
  }

  /** Keeps the states just found; returns what all of them cost more than before, undefined where they differ in that. */
  #renew(at: number): number | undefined {
    const { states, bases } = this;
    const fresh = this.#fresh;
    const [start, end] = [this.starts[at]!, this.starts[at + 1]!];
    const more = fresh[0]! - states[start]!;
    const [base, was] = [at > 0 ? bases[at - 1]! : 0, bases[at]!];
    let cell = start;
    while (cell < end && fresh[cell - start]! - states[cell]! === more) cell++;
    if (cell === end) {
      bases[at] = base + more;
      return base + more - was;
    }
    for (cell = start; cell < end; cell++) states[cell] = fresh[cell - start]!;
    bases[at] = base;
    return undefined;
  }

  /** For every depth the cheapest one to come from: the further out, the further out, because the kernel is convex. */
  protected override move(pair: number): void {
    const { moved } = this;
    const [state, origins, kernel] = [this.states, this.#depth, this.#kernel];
    const [start, out] = [this.#from + pair * D, pair * D];
    let origin = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let to = 0; to < D; to++) {
      let best = state[start + origin]! + kernel[origin * D + to]!;
      for (let from = origin + 1; from < D; from++) {
        const cost = state[start + from]! + kernel[from * D + to]!;
        if (cost < best) {
          best = cost;
          origin = from;
        }
      }
      moved[out + to] = best;
      origins[start + to] = origin;
      if (best > most) most = best;
    }
    this.most[pair] = most;
  }

  #trace(objective: Objective): Choice {
    const { states, starts, bases } = this;
    const count = objective.views.length;
    if (count === 0) return { path: [], depths: [], biased: [], cost: 0 };
    let best = starts[count - 1]!;
    for (let cell = best + 1; cell < starts[count]!; cell++) if (states[cell]! < states[best]!) best = cell;
    const path = new Array<number>(count);
    const depths = new Array<number>(count);
    const cost = states[best]! + bases[count - 1]!;
    for (let at = count - 1; at >= 0; at--) {
      const columns = objective.count(at);
      const state = best - starts[at]!;
      const depth = state % D;
      const pair = (state - depth) / D;
      depths[at] = depth;
      path[at] = pair % columns;
      if (at === 0) break;
      const b = Math.floor(pair / columns);
      const origin = starts[at - 1]! + (this.#before[best]! * objective.count(at - 1) + b) * D;
      best = origin + this.#depth[origin + depth]!;
    }
    const biased = new Array<number>(count);
    for (let at = 0; at < count; at++) biased[at] = objective.bias?.[at]?.[path[at]!] ?? 0;
    return { path, depths, biased, cost };
  }
}
