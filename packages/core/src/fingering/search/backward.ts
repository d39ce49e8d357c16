import { DEPTH_COUNT } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';
import { DepthMoves } from './depth-moves.js';
import type { Search } from './forward.js';
import { Recursion } from './recursion.js';

const D = DEPTH_COUNT;

/**
 * Least cost of everything after each slice, for every state of the search:
 * `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`, exact, by the search's recursion run backwards.
 */
export function costsToGo(objective: Objective): readonly Float64Array[] {
  const backward = new Backward(objective);
  const toGo: Float64Array[] = new Array(objective.views.length);
  for (let at = toGo.length - 1; at >= 0; at--) {
    const states = objective.count(at - 1) * objective.count(at) * D;
    toGo[at] = backward.advance(at).slice(0, states);
  }
  return toGo;
}

/** Goes through the slices from the last one back. */
class Backward {
  /** Of the slice reached last, and of the one after it. */
  #here: Float64Array = new Float64Array(0);
  #after: Float64Array = this.#here;
  /** `[pair * DEPTH_COUNT + depth]`: cost of the step to a pair's later candidate, of that candidate and of all after it. */
  #onward: Float64Array = this.#here;
  readonly #moves = new DepthMoves();
  readonly #recursion = new Recursion(this.#moves);

  constructor(private readonly objective: Objective) {}

  /** To be called for every slice in turn; what it returns, maybe followed by more, is good until the next call but one. */
  advance(at: number): Float64Array {
    const { objective } = this;
    const origins = objective.count(at - 1);
    const rows = objective.count(at);
    const columns = objective.count(at + 1);
    const behind = this.#after;
    this.#after = this.#here;
    this.#here = behind;
    const states = origins * rows * D;
    if (this.#here.length < states) this.#here = new Float64Array(2 * states);
    if (at === objective.views.length - 1) {
      this.#here.fill(0, 0, states);
      return this.#here;
    }
    this.#addSlice(at + 1, rows * columns);
    this.#moves.begin(this.#onward, 0, rows * columns, objective.kernel(at + 1));
    this.#recursion.take({
      middles: rows,
      sources: { count: columns, pair: 1, chain: 1, middle: columns },
      targets: { count: origins, pair: rows, chain: rows * columns, middle: 1 },
      chains: objective.chains(at + 1),
      middleChain: columns,
      out: this.#here,
      start: 0,
    });
    return this.#here;
  }

  /** Adds what slice `at` costs, and the steps into it, to the costs of everything after it. */
  #addSlice(at: number, pairs: number): void {
    const { objective } = this;
    const own = objective.own(at);
    const first = objective.ownStart(at);
    const bias = objective.bias?.[at];
    const steps = objective.steps(at);
    const columns = objective.count(at);
    if (this.#onward.length < pairs * D) this.#onward = new Float64Array(2 * pairs * D);
    const onward = this.#onward;
    const after = this.#after;
    for (let pair = 0, cell = 0; pair < pairs; pair++) {
      const candidate = pair % columns;
      const added = steps[pair]! + (bias === undefined ? 0 : bias[candidate]!);
      const start = first + candidate * D;
      for (let depth = 0; depth < D; depth++, cell++)
        onward[cell] = after[cell]! + (added + own[start + depth]!);
    }
  }
}

/**
 * For every slice and candidate, the cost of the best fingering of the whole line that uses it; exact up to a limit in mm
 * equivalents. States beyond the limit are not followed back any further, so that costs above it may be too high.
 *
 * @param search one that found the least choice for the same objective last
 */
export function leastCostsThrough(
  objective: Objective,
  search: Search,
  limit: number,
): readonly (readonly number[])[] {
  const through: number[][] = new Array(objective.views.length);
  const backward = new Backward(objective);
  for (let at = through.length - 1; at >= 0; at--) {
    const after = backward.advance(at);
    const { costs, start, end } = search.statesOf(at);
    const columns = objective.count(at);
    const own = new Array<number>(columns).fill(Number.POSITIVE_INFINITY);
    for (let cell = 0, pair = 0; start + cell < end; cell += D, pair++) {
      const least = leastThrough(costs, start + cell, after, cell);
      const candidate = pair % columns;
      if (least < own[candidate]!) own[candidate] = least;
      if (least > limit)
        for (let depth = 0; depth < D; depth++) after[cell + depth] = Number.POSITIVE_INFINITY;
    }
    through[at] = own;
  }
  return through;
}

function leastThrough(costs: Float64Array, start: number, after: Float64Array, cell: number): number {
  let least = Number.POSITIVE_INFINITY;
  // Costs after a slice are infinite at all depths or at none, since the forearm can go from each to each.
  if (after[cell] === least) return least;
  for (let depth = 0; depth < D; depth++) {
    const cost = costs[start + depth]! + after[cell + depth]!;
    if (cost < least) least = cost;
  }
  return least;
}
