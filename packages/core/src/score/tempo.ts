import { firstNotBefore } from '../numeric/binary-search.js';
import { toNumber } from '../numeric/fraction.js';
import type { TempoMark } from './model.js';

/** Tempo where a score gives none: quarter notes a minute, a calm andante (our choice, no source). */
const DEFAULT_TEMPO = 90;

/** Converts quarter notes to seconds by the tempo marks, and by `DEFAULT_TEMPO` before the first of them. */
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
    const at = firstNotBefore(this.#from, quarters, isNoLater, 1) - 1;
    return this.#seconds[at]! + (quarters - this.#from[at]!) * this.#pace[at]!;
  }
}

function isNoLater(from: number, quarters: number): boolean {
  return from <= quarters;
}
