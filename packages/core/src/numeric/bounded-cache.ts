/** Most numbers that a cache keeps by default: 16 MB. */
const MOST_NUMBERS = 2_000_000;

/** Arrays of numbers by id, up to a bounded total size; what comes later is not kept. */
export class BoundedCache {
  readonly #arrays = new Map<number, Float64Array>();
  #numbers = 0;

  /** @param most numbers that are kept, those of all arrays together */
  constructor(private readonly most = MOST_NUMBERS) {}

  get(id: number): Float64Array | undefined {
    return this.#arrays.get(id);
  }

  /** Keeps the array unless the cache is full or the id NaN; returns it either way. */
  keep(id: number, array: Float64Array): Float64Array {
    if (!Number.isNaN(id) && this.#numbers + array.length <= this.most) {
      this.#numbers += array.length;
      this.#arrays.set(id, array);
    }
    return array;
  }
}
