import { gcd } from '../../numeric/fraction.js';
import { MAX_TICKS_PER_QUARTER } from '../../options/limits.js';
import { decimal } from './elements/number.js';
import type { PartSource } from './parts/part-source.js';

/** Ticks a quarter note on which every onset and duration of a score lies, so that times are integers while reading. */
export interface Grid {
  readonly ticks: number;
  /** False where the score's own divisions are finer, so that times are rounded. */
  readonly exact: boolean;
}

/** Ticks a unit for durations with decimals: three places are exact. */
const DECIMALS = 1000;
/** Ticks a quarter note for durations that are taken from note types: 256ths and tuplets of 3, 5 and 7 are exact. */
const TYPES = 64 * 3 * 5 * 7;

/**
 * The least common multiple of all `<divisions>`; finer where durations have decimals or are missing.
 */
export function gridOf(parts: readonly PartSource[]): Grid {
  let ticks = 1;
  let decimals = false;
  let missing = false;
  for (const part of parts) {
    for (const { content } of part.measures) {
      for (const element of content.children) {
        if (element.name === 'attributes') {
          const value = decimal(element.textOf('divisions'));
          if (value === undefined || value <= 0) continue;
          const thousandths = Math.max(Math.round(value * DECIMALS), 1);
          ticks = common(ticks, thousandths / gcd(thousandths, DECIMALS));
          if (ticks > MAX_TICKS_PER_QUARTER) return { ticks: MAX_TICKS_PER_QUARTER, exact: false };
        } else if (element.name === 'note' || element.name === 'backup' || element.name === 'forward') {
          const text = element.textOf('duration');
          if (text?.includes('.')) decimals ||= !Number.isInteger(decimal(text) ?? 0);
          else if (text === undefined || text.startsWith('-'))
            missing ||= element.child('grace') === undefined;
        }
      }
    }
  }
  if (missing) ticks = common(ticks, TYPES);
  if (decimals) ticks *= DECIMALS;
  const exact = ticks <= MAX_TICKS_PER_QUARTER;
  return { ticks: exact ? ticks : MAX_TICKS_PER_QUARTER, exact };
}

function common(a: number, b: number): number {
  return (a / gcd(a, b)) * b;
}
