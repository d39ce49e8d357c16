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

/**
 * Exact minimum of an objective over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards. What is kept by
 * state lies in one array for the whole line, since an array a slice costs more, and the next search writes over it.
 */
export class Search {
  /**
   * Least costs of all prefixes that end in each slice:
   * `[starts[slice] + (candidate before * candidates + candidate) * DEPTH_COUNT + depth]`.
   */
  states = new Float64Array(0);
  /** By slice, and after the last one. */
  starts = new Uint32Array(1);
  /** By state: the candidate two slices before. */
  #before = new Uint8Array(0);
  /** By state of the slice before, but with the depth moved to: the depth moved from. */
  #depth = new Uint8Array(0);
  readonly #moves = new DepthMoves();
  readonly #recursion = new Recursion(this.#moves);

  find(objective: Objective): Choice {
    this.#layOut(objective);
    for (let at = 0; at < objective.views.length; at++) this.#advance(objective, at);
    return this.#trace(objective);
  }

  #layOut(objective: Objective): void {
    const count = objective.views.length;
    this.starts = new Uint32Array(count + 1);
    for (let at = 0; at < count; at++)
      this.starts[at + 1] = this.starts[at]! + objective.count(at - 1) * objective.count(at) * D;
    const all = this.starts[count]!;
    if (this.states.length >= all) return;
    this.states = new Float64Array(all);
    this.#before = new Uint8Array(all);
    this.#depth = new Uint8Array(all);
  }

  /** Finds the states of a slice from those of the slice before. */
  #advance(objective: Objective, at: number): void {
    const { states } = this;
    const start = this.starts[at]!;
    const own = objective.own(at);
    const [origins, rows, columns] = [objective.count(at - 2), objective.count(at - 1), objective.count(at)];
    if (at === 0) {
      for (let cell = 0; cell < columns * D; cell++) states[start + cell] = own[cell]!;
      return;
    }
    const steps = objective.steps(at);
    this.#moves.begin(states, this.starts[at - 1]!, origins * rows, objective.kernel(at), this.#depth);
    this.#recursion.take({
      middles: rows,
      sources: { count: origins, pair: rows, chain: rows * columns, middle: 1 },
      targets: { count: columns, pair: 1, chain: 1, middle: columns },
      chains: objective.chains(at),
      middleChain: columns,
      out: states,
      start,
      chosen: this.#before,
    });
    for (let pair = 0, cell = start; pair < rows * columns; pair++) {
      const step = steps[pair]!;
      const above = (pair % columns) * D;
      for (let depth = 0; depth < D; depth++, cell++) states[cell]! += step + own[above + depth]!;
    }
  }

  /** Goes back from the cheapest state of the last slice. */
  #trace(objective: Objective): Choice {
    const { states, starts } = this;
    const count = objective.views.length;
    if (count === 0) return { path: [], depths: [], biased: [], cost: 0 };
    let best = starts[count - 1]!;
    for (let cell = best + 1; cell < starts[count]!; cell++) if (states[cell]! < states[best]!) best = cell;
    const path = new Array<number>(count);
    const depths = new Array<number>(count);
    const cost = states[best]!;
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
