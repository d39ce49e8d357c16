import { DEPTH_COUNT } from './depth.js';
import { Fold } from './fold.js';
import { numbers } from './slab.js';
import type { Stages } from './stages.js';

const D = DEPTH_COUNT;

/**
 * Least cost of everything after each slice, for every state of the search:
 * `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`, exact, by the same recursion run backwards.
 */
export function costsToGo(stages: Stages): readonly Float64Array[] {
  const backward = new Backward(stages);
  const toGo: Float64Array[] = new Array(stages.views.length);
  for (let at = toGo.length - 1; at >= 0; at--) toGo[at] = backward.advance(at);
  return toGo;
}

/** Walks through the slices from the last one back. */
class Backward extends Fold {
  readonly #slab = numbers();
  #after: Float64Array | undefined;
  #own: Float64Array = new Float64Array(0);
  #steps: Float64Array = this.#own;
  #kernel: Float64Array = this.#own;
  #columns = 0;
  /** Of the pair that is being moved, by depth: cost of its later candidate and of all after it. */
  readonly #onward = new Float64Array(D);

  constructor(private readonly stages: Stages) {
    super();
  }

  /** To be called for every slice in turn. */
  advance(at: number): Float64Array {
    const { stages } = this;
    const [origins, rows, columns] = [stages.count(at - 1), stages.count(at), stages.count(at + 1)];
    const here = this.#slab.take(origins * rows * D);
    if (this.#after) {
      this.#prepare(at + 1, rows * columns, Math.max(origins, columns));
      const chains = stages.chains(at + 1);
      const sources = { count: columns, pair: 1, chain: 1, middle: columns };
      const targets = { count: origins, pair: rows, chain: rows * columns, middle: 1 };
      for (let b = 0; b < rows; b++) this.fold(b, sources, targets, chains, b * columns, here);
    }
    this.#after = here;
    return here;
  }

  #prepare(at: number, pairs: number, candidates: number): void {
    const { stages } = this;
    this.makeRoom(pairs, candidates);
    this.#own = stages.own(at);
    this.#steps = stages.steps(at);
    this.#kernel = stages.kernel(at);
    this.#columns = stages.count(at);
    for (let pair = 0; pair < pairs; pair++) {
      this.#goOn(pair);
      let low = Number.POSITIVE_INFINITY;
      for (let depth = 0; depth < D; depth++) if (this.#onward[depth]! < low) low = this.#onward[depth]!;
      this.least[pair] = low + this.#steps[pair]!;
    }
  }

  #goOn(pair: number): void {
    const [own, after] = [this.#own, this.#after!];
    const start = (pair % this.#columns) * D;
    for (let depth = 0; depth < D; depth++)
      this.#onward[depth] = own[start + depth]! + after[pair * D + depth]!;
  }

  /** From every depth of the slice before the best way on; the further out, the less far in, because the kernel is convex. */
  protected override move(pair: number): void {
    const [kernel, onward] = [this.#kernel, this.#onward];
    this.#goOn(pair);
    let aim = 0;
    for (let from = 0; from < D; from++) {
      let best = Number.POSITIVE_INFINITY;
      for (let to = aim; to < D; to++) {
        const cost = kernel[from * D + to]! + onward[to]!;
        if (cost < best) {
          best = cost;
          aim = to;
        }
      }
      this.moved[pair * D + from] = best + this.#steps[pair]!;
    }
  }
}

/**
 * For every slice and candidate, the cost of the best fingering of the whole line that uses it; exact.
 *
 * @param states of the search by slice, as `leastChoice` gives them
 */
export function leastCostsThrough(stages: Stages, states: readonly Float64Array[]): readonly Float64Array[] {
  const through: Float64Array[] = new Array(states.length);
  const backward = new Backward(stages);
  for (let at = states.length - 1; at >= 0; at--) {
    const after = backward.advance(at);
    const state = states[at]!;
    const columns = stages.count(at);
    const own = new Float64Array(columns).fill(Number.POSITIVE_INFINITY);
    for (let pair = 0; pair * DEPTH_COUNT < state.length; pair++) {
      let least = own[pair % columns]!;
      for (let cell = pair * DEPTH_COUNT; cell < (pair + 1) * DEPTH_COUNT; cell++) {
        const cost = state[cell]! + after[cell]!;
        if (cost < least) least = cost;
      }
      own[pair % columns] = least;
    }
    through[at] = own;
  }
  return through;
}
