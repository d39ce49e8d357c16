import type { SliceView } from '../fingering/view/view.js';

/** Patterns told apart; slices of further ones share no costs. */
export const MOST_PATTERNS = 8192;
/** Numbers that a memory keeps at most, if nothing else is said: 16 MB. */
const MOST_NUMBERS = 2_000_000;

/** Numbers the patterns of keys and candidates; equal keys have the very same list of candidates (`assignments`). */
export class Patterns {
  readonly #ids = new Map<unknown, number>();

  /** NaN beyond `MOST_PATTERNS`, which no memory keeps. */
  of({ candidates }: SliceView): number {
    let id = this.#ids.get(candidates);
    if (id === undefined) {
      id = this.#ids.size < MOST_PATTERNS ? this.#ids.size : Number.NaN;
      if (!Number.isNaN(id)) this.#ids.set(candidates, id);
    }
    return id;
  }
}

/** Costs by id, up to a bounded size: odd scores would grow it without end. */
export class Memory {
  readonly #costs = new Map<number, Float64Array>();
  #numbers = 0;

  /** @param most numbers that are kept */
  constructor(private readonly most = MOST_NUMBERS) {}

  get(id: number): Float64Array | undefined {
    return this.#costs.get(id);
  }

  /** Returns the costs, kept or not. */
  keep(id: number, costs: Float64Array): Float64Array {
    if (!Number.isNaN(id) && this.#numbers + costs.length <= this.most) {
      this.#numbers += costs.length;
      this.#costs.set(id, costs);
    }
    return costs;
  }
}
