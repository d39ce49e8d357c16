import { gcd } from '../score/fraction.js';
import { MAX_TICKS_PER_QUARTER } from './limits.js';
import { decimal } from './readnumber.js';
import type { PartSource } from './readparts.js';

/** Ticks a quarter note on which every onset and duration of a score lies, so that times are integers while reading. */
export interface Grid {
  readonly ticks: number;
  /** False where the score's own divisions are finer, so that times are rounded. */
  readonly exact: boolean;
}

const DECIMALS = 1000;

/**
 * The least common multiple of all `<divisions>`, times a thousand where durations have decimals.
 */
export function gridOf(parts: readonly PartSource[]): Grid {
  let ticks = 1;
  let decimals = false;
  for (const part of parts) {
    for (const { content } of part.measures) {
      for (const element of content.children) {
        if (element.name === 'attributes') {
          const value = decimal(element.textOf('divisions'));
          if (value === undefined || value <= 0) continue;
          const thousandths = Math.max(Math.round(value * DECIMALS), 1);
          const numerator = thousandths / gcd(thousandths, DECIMALS);
          ticks = (ticks / gcd(ticks, numerator)) * numerator;
          if (ticks > MAX_TICKS_PER_QUARTER) return { ticks: MAX_TICKS_PER_QUARTER, exact: false };
        } else if (
          !decimals &&
          (element.name === 'note' || element.name === 'backup' || element.name === 'forward')
        ) {
          decimals = hasDecimals(element.textOf('duration'));
        }
      }
    }
  }
  if (!decimals) return { ticks, exact: true };
  const fine = ticks * DECIMALS;
  return fine > MAX_TICKS_PER_QUARTER
    ? { ticks: MAX_TICKS_PER_QUARTER, exact: false }
    : { ticks: fine, exact: true };
}

function hasDecimals(text: string | undefined): boolean {
  if (text === undefined || !text.includes('.')) return false;
  const value = decimal(text);
  return value !== undefined && !Number.isInteger(value);
}
