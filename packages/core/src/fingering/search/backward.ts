import { DEPTH_COUNT } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';
import type { Search } from './forward.js';
import { Recursion } from './recursion.js';

const D = DEPTH_COUNT;

/**
 * Least cost of everything after each slice, for every state of the search:
 * `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`, exact, by the same recursion run backwards.
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

/** Walks through the slices from the last one back. */
class Backward extends Recursion {
  /** Of the slice reached last, and of the one after it. */
  #here: Float64Array = new Float64Array(0);
  #after: Float64Array = this.#here;
  /** `[pair * DEPTH_COUNT + depth]`: cost of a pair's later candidate and of all after it. */
  #onward: Float64Array = this.#here;
  #steps: Float64Array = this.#onward;
  #kernel: Float64Array = this.#onward;

  constructor(private readonly objective: Objective) {
    super();
  }

  /** To be called for every slice in turn; what it returns, maybe followed by more, is good until the next call but one. */
  advance(at: number): Float64Array {
    const { objective } = this;
    const [origins, rows, columns] = [objective.count(at - 1), objective.count(at), objective.count(at + 1)];
    [this.#here, this.#after] = [this.#after, this.#here];
    const states = origins * rows * D;
    if (this.#here.length < states) this.#here = new Float64Array(2 * states);
    if (at === objective.views.length - 1) this.#here.fill(0, 0, states);
    else {
      this.#prepare(at + 1, rows * columns, Math.max(origins, columns));
      const chains = objective.chains(at + 1);
      const sources = { count: columns, pair: 1, chain: 1, middle: columns };
      const targets = { count: origins, pair: rows, chain: rows * columns, middle: 1 };
      for (let b = 0; b < rows; b++) this.advanceOne(b, sources, targets, chains, b * columns, this.#here, 0);
    }
    return this.#here;
  }

  /** Makes ready to go back to the slice before `at`. */
  #prepare(at: number, pairs: number, candidates: number): void {
    const { objective } = this;
    const [own, after, columns] = [objective.own(at), this.#after, objective.count(at)];
    this.makeRoom(pairs, candidates);
    if (this.#onward.length < pairs * D) this.#onward = new Float64Array(2 * pairs * D);
    this.#steps = objective.steps(at);
    this.#kernel = objective.kernel(at);
    const [onward, steps, least] = [this.#onward, this.#steps, this.least];
    for (let pair = 0; pair < pairs; pair++) {
      const start = (pair % columns) * D;
      let low = Number.POSITIVE_INFINITY;
      // Infinite at one depth, infinite at all: see `leastCostsThrough`.
      for (let depth = after[pair * D] === low ? D : 0; depth < D; depth++) {
        const cost = own[start + depth]! + after[pair * D + depth]!;
        onward[pair * D + depth] = cost;
        if (cost < low) low = cost;
      }
      least[pair] = low + steps[pair]!;
    }
  }

  /** From every depth of the slice before the best way on; the further out, the less far in, because the kernel is convex. */
  protected override move(pair: number): void {
    const { moved } = this;
    const [kernel, onward, step] = [this.#kernel, this.#onward, this.#steps[pair]!];
    const start = pair * D;
    let aim = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let from = 0; from < D; from++) {
      let best = Number.POSITIVE_INFINITY;
      for (let to = aim; to < D; to++) {
        const cost = kernel[from * D + to]! + onward[start + to]!;
        if (cost < best) {
          best = cost;
          aim = to;
        }
      }
      moved[start + from] = best + step;
      if (best + step > most) most = best + step;
    }
    this.most[pair] = most;
  }
}

/**
 * For every slice and candidate, the cost of the best fingering of the whole line that uses it; exact up to a limit in mm
 * equivalents, and beyond that no less than the limit. What lies beyond is not gone back through.
 *
 * @param search whose last choice was that of the same objective
 */
export function leastCostsThrough(
  objective: Objective,
  { states, starts, bases }: Search,
  limit: number,
): readonly (readonly number[])[] {
  const through: number[][] = new Array(objective.views.length);
  const backward = new Backward(objective);
  for (let at = through.length - 1; at >= 0; at--) {
    const after = backward.advance(at);
    const start = starts[at]!;
    const columns = objective.count(at);
    const own = new Array<number>(columns).fill(Number.POSITIVE_INFINITY);
    for (let cell = 0, pair = 0; start + cell < starts[at + 1]!; cell += D, pair++) {
      const least = leastThrough(states, start + cell, after, cell) + bases[at]!;
      const candidate = pair % columns;
      if (least < own[candidate]!) own[candidate] = least;
      if (least > limit)
        for (let depth = 0; depth < D; depth++) after[cell + depth] = Number.POSITIVE_INFINITY;
    }
    through[at] = own;
  }
  return through;
}

function leastThrough(states: Float64Array, start: number, after: Float64Array, cell: number): number {
  let least = Number.POSITIVE_INFINITY;
  if (after[cell] === least) return least;
  for (let depth = 0; depth < D; depth++) {
    const cost = states[start + depth]! + after[cell + depth]!;
    if (cost < least) least = cost;
  }
  return least;
}
