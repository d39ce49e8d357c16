import type { SliceView } from '../view/view.js';

/** Patterns that get a number; the costs of slices with further ones are not cached. */
export const MOST_PATTERNS = 8192;

/**
 * Numbers slices by their keys, 0 ... `MOST_PATTERNS` - 1, so that costs can be cached by those numbers. Slices with equal
 * keys share one list of candidates (`candidatesFor`), which therefore stands for them.
 */
export class Patterns {
  readonly #ids = new Map<SliceView['candidates'], number>();

  /** NaN, which no cache keeps, once `MOST_PATTERNS` are numbered. */
  of({ candidates }: SliceView): number {
    let id = this.#ids.get(candidates);
    if (id === undefined) {
      id = this.#ids.size < MOST_PATTERNS ? this.#ids.size : Number.NaN;
      if (!Number.isNaN(id)) this.#ids.set(candidates, id);
    }
    return id;
  }
}
