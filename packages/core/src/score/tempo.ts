import { toNumber } from '../numeric/fraction.js';
import type { TempoMark } from './model.js';

/** Tempo where a score gives none: quarter notes a minute, a calm andante (our choice, no source). */
export const DEFAULT_TEMPO = 90;

/** Goes by the tempo marks, and by `DEFAULT_TEMPO` before the first of them. */
export class Clock {
  /** By tempo: where it begins, in quarter notes and in seconds, and its seconds a quarter note. */
  readonly #from = [0];
  readonly #seconds = [0];
  readonly #pace = [60 / DEFAULT_TEMPO];

  /** @param tempo in the order of their places */
  constructor(tempo: readonly TempoMark[]) {
    for (const { at, quartersPerMinute } of tempo) {
      const quarters = toNumber(at);
      this.#seconds.push(this.secondsAt(quarters));
      this.#from.push(quarters);
      this.#pace.push(60 / quartersPerMinute);
    }
  }

  /** Seconds from the start of the score for a time in quarter notes. */
  secondsAt(quarters: number): number {
    let low = 0;
    let high = this.#from.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#from[middle]! <= quarters) low = middle;
      else high = middle - 1;
    }
    return this.#seconds[low]! + (quarters - this.#from[low]!) * this.#pace[low]!;
  }
}
