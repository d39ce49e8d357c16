import { type Fraction, subtract, toNumber } from '../numeric/fraction.js';
import type { Measure } from './model.js';

/** The number that MusicXML gives to the measure before the first one. */
const UPBEAT = '0';

/** True where a measure with this printed number is the upbeat to the first one. */
export function isUpbeat(measure: string): boolean {
  return measure === UPBEAT;
}

/** Share of a beat by which rounding may shift an onset. */
const ROUNDING = 1e-6;

/** Quarter notes that a measure lacks at its beginning; 0 where it is whole, or no pickup. */
function missing({ nominal, length }: Measure, isPickup: boolean): number {
  return isPickup ? Math.max(0, toNumber(nominal) - toNumber(length)) : 0;
}

/** Beats of the time signature from a measure's start to an onset. A pickup is counted from its end. */
function beatsInto(measure: Measure, onset: Fraction): number {
  const quarters = toNumber(subtract(onset, measure.start));
  return (quarters + missing(measure, measure.implicit || measure.index === 0)) / toNumber(measure.beat);
}

/** Number of the beat that an onset lies in, from 0. */
export function beatNumber(measure: Measure, onset: Fraction): number {
  return Math.floor(beatsInto(measure, onset) + ROUNDING);
}

export function isOnBeat(measure: Measure, onset: Fraction): boolean {
  const beats = beatsInto(measure, onset);
  return Math.abs(beats - Math.round(beats)) < ROUNDING;
}

/**
 * Place in the measure as people count it: from 1, in the note value that the time signature counts, so that the second half
 * of 6/8 begins with 4, that of 2/2 with 2. What the file calls a pickup, as uncounted or by the number 0, is counted from
 * its end: in 4/4 its last quarter is 4.
 */
export function beatInMeasure(measure: Measure, onset: Fraction): number {
  const quarters = toNumber(subtract(onset, measure.start));
  const all = quarters + missing(measure, measure.implicit || isUpbeat(measure.number));
  return 1 + all / toNumber(measure.unit);
}
