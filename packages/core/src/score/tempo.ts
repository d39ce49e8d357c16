import { toNumber } from './fraction.js';
import type { TempoMark } from './model.js';

/** Tempo where a score gives none: quarter notes a minute, a calm andante (our choice, no source). */
export const DEFAULT_TEMPO = 90;

/** Seconds from the start of the score for a time in quarter notes. */
export type Clock = (quarters: number) => number;

/** A clock that goes by the tempo marks, and by `DEFAULT_TEMPO` before the first of them. */
export function clockOf(tempo: readonly TempoMark[]): Clock {
  const from = [0];
  const seconds = [0];
  const pace = [60 / DEFAULT_TEMPO];
  for (const mark of tempo) {
    const at = toNumber(mark.at);
    const last = from.length - 1;
    const passed = (seconds[last] as number) + (at - (from[last] as number)) * (pace[last] as number);
    from.push(at);
    seconds.push(passed);
    pace.push(60 / mark.quartersPerMinute);
  }
  return (quarters) => {
    let low = 0;
    let high = from.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((from[middle] as number) <= quarters) low = middle;
      else high = middle - 1;
    }
    return (seconds[low] as number) + (quarters - (from[low] as number)) * (pace[low] as number);
  };
}
