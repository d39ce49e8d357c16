import { type Fraction, subtract, toNumber } from '../numeric/fraction.js';
import type { Measure } from './model.js';

/** Share of a beat by which rounding may shift an onset. */
const ROUNDING = 1e-6;

/** Beats of the time signature from a measure's start to an onset. A pickup is counted from its end. */
function beatsInto(measure: Measure, onset: Fraction): number {
  const missing = toNumber(measure.nominal) - toNumber(measure.length);
  const isPickup = missing > 0 && (measure.implicit || measure.index === 0);
  return (toNumber(subtract(onset, measure.start)) + (isPickup ? missing : 0)) / toNumber(measure.beat);
}

/** Number of the beat that an onset lies in, from 0. */
export function beatNumber(measure: Measure, onset: Fraction): number {
  return Math.floor(beatsInto(measure, onset) + ROUNDING);
}

export function isOnBeat(measure: Measure, onset: Fraction): boolean {
  const beats = beatsInto(measure, onset);
  return Math.abs(beats - Math.round(beats)) < ROUNDING;
}

/** Place in the measure as shown to people: from 1, in quarter notes. */
export function quarterInMeasure(measure: Measure, onset: Fraction): number {
  return 1 + toNumber(subtract(onset, measure.start));
}
