import type { Line, Slice } from '../../hands/line.js';
import type { Trial } from '../../options/review-options.js';
import { beatInMeasure } from '../../score/beat.js';
import { optionError } from '../../score/errors.js';
import type { Finger, Part } from '../../score/model.js';
import type { Passage } from '../measure/passages.js';

/** Share of a beat by which rounding may shift one that is typed, such as 2.33. */
const ROUNDING = 0.01;

/** A line with the digits of a trial in place of its own, and the slices that it is about. */
export interface Tried extends Passage {
  readonly line: Line;
}

/**
 * @throws HandlineError OPTION where the measure has no such note, or a chord not as many keys as digits
 */
export function tried(line: Line, part: Part, trial: Trial): Tried {
  const from = line.slices.findIndex((slice) => isMeant(slice, part, trial));
  const what = `measure ${trial.measure}, ${trial.hand} hand`;
  if (from < 0) throw optionError('tries', `${what}: no note begins there`, { part: part.id });
  const to = from + trial.digits.length;
  if (to > line.slices.length) {
    throw optionError('tries', `${what}: ${trial.digits.length} digits are more than the notes that follow`, {
      part: part.id,
    });
  }
  const slices = line.slices.map((slice, at) => {
    const digits = trial.digits[at - from];
    return digits && digits.length > 0 ? withDigits(slice, digits, part, what) : slice;
  });
  return { line: { ...line, slices }, from, to };
}

function isMeant({ measure, onset }: Slice, { measures }: Part, trial: Trial): boolean {
  const own = measures[measure]!;
  if (own.number !== trial.measure) return false;
  return trial.beat === undefined || Math.abs(beatInMeasure(own, onset) - trial.beat) < ROUNDING;
}

function withDigits(slice: Slice, digits: readonly (Finger | null)[], part: Part, what: string): Slice {
  if (digits.length !== slice.struck.length) {
    const { number } = part.measures[slice.measure]!;
    const message =
      `${what}: ${slice.struck.length} keys are struck in measure ${number}, beat ` +
      `${beatInMeasure(part.measures[slice.measure]!, slice.onset)}, not ${digits.length}; give a digit for each`;
    throw optionError('tries', message, { part: part.id });
  }
  return {
    ...slice,
    struck: slice.struck.map((key, nth) => {
      const digit = digits[nth];
      return digit === null || digit === undefined ? key : { ...key, fixed: digit };
    }),
  };
}
