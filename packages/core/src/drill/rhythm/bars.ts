import { HandlineError, optionError } from '../../score/errors.js';
import type { Step } from '../sheet.js';
import { groupEnd, type Metre } from './metre.js';
import { fill, type NoteValue, noteOf } from './values.js';

/** A chord or rest as it is written: within one measure, of one note value. */
export interface Written {
  /** Ticks from the start of its measure. */
  readonly at: number;
  readonly value: NoteValue;
  /** Absent at a rest. */
  readonly step?: Step;
  readonly tied: { readonly from: boolean; readonly to: boolean };
  readonly accent: boolean;
  readonly fermata: boolean;
}

/** What one staff has in one measure; nothing is a rest of the whole measure. */
export type Bar = readonly Written[];

export interface RhythmChoice {
  readonly metre: Metre;
  /** Values in turn, from the beginning again when they are used up. */
  readonly values: readonly NoteValue[];
  /** An accent on the first of so many notes; absent: none. */
  readonly accents?: number;
}

interface Timed {
  readonly step: Step;
  readonly at: number;
  readonly ticks: number;
  readonly accent: boolean;
}

const UNTIED = { from: false, to: false };
/** A sheet does not go on without end where its author's JSON says so. */
const MOST_MEASURES = 4000;

/**
 * Steps on measures of their own. The last note is held to the end of its beat and rests fill the measure; where the
 * measure ends with that beat, it has a fermata. So a phrase ends where an exercise does, for the eye and for the analysis.
 */
export function barsOf(all: readonly Step[], rhythm: RhythmChoice): readonly Bar[] {
  const steps = all.slice(0, all.findLastIndex(({ pitches }) => pitches.length > 0) + 1);
  if (steps.length === 0) return [];
  const { metre } = rhythm;
  const timed = timeOf(steps, rhythm);
  const last = timed.at(-1)!;
  const length = lastLength(last, rhythm);
  const end = last.at + length;
  const count = Math.ceil(end / metre.measure);
  if (count > MOST_MEASURES) {
    throw new HandlineError(
      'OPTION',
      `an exercise would have more than ${MOST_MEASURES} measures; take less of it`,
    );
  }
  const bars: Written[][] = Array.from({ length: count }, () => []);
  const closes = end === count * metre.measure;
  for (const own of timed) {
    const isLast = own === last;
    place(bars, isLast ? { ...own, ticks: length } : own, metre, isLast && closes);
  }
  rests(bars[count - 1]!, end - (count - 1) * metre.measure, metre);
  return bars;
}

function timeOf(steps: readonly Step[], { values, accents }: RhythmChoice): readonly Timed[] {
  let at = 0;
  return steps.map((step, nth) => {
    const ticks = step.ticks ?? values[nth % values.length]!.ticks;
    const timed = { step, at, ticks, accent: accents !== undefined && nth % accents === 0 };
    at += ticks;
    return timed;
  });
}

/** To the end of the beat, or of the triplet, as long as that is a single note. */
function lastLength({ at, ticks }: Timed, { metre }: RhythmChoice): number {
  const inMeasure = at % metre.measure;
  const triplet = noteOf(ticks)?.triplet === true;
  const group = triplet ? Math.max(3 * ticks, metre.beat) : metre.beat;
  const end = triplet
    ? Math.min(metre.measure, group * (Math.floor(inMeasure / group) + 1))
    : Math.min(groupEnd(metre, inMeasure), metre.beat * (Math.floor(inMeasure / metre.beat) + 1));
  const length = end - inMeasure;
  return length > ticks && noteOf(length) ? length : ticks;
}

/** Writes a note into its measure, tied over the barline or from value to value where one does not do. */
function place(
  bars: Written[][],
  { step, at, ticks, accent }: Timed,
  { measure }: Metre,
  fermata: boolean,
): void {
  const pieces: { bar: number; at: number; value: NoteValue }[] = [];
  let from = at;
  const end = at + ticks;
  while (from < end) {
    const bar = Math.floor(from / measure);
    const length = Math.min(end, (bar + 1) * measure) - from;
    const single = noteOf(length);
    const values = single ? [single] : fill(length);
    if (!values) throw unwritable(length);
    for (const value of values) {
      pieces.push({ bar, at: from - bar * measure, value });
      from += value.ticks;
    }
  }
  const isRest = step.pitches.length === 0;
  pieces.forEach(({ bar, at: tick, value }, nth) => {
    bars[bar]!.push({
      at: tick,
      value,
      ...(isRest ? {} : { step }),
      tied: isRest ? UNTIED : { from: nth > 0, to: nth < pieces.length - 1 },
      accent: accent && nth === 0 && !isRest,
      fermata: fermata && nth === pieces.length - 1,
    });
  });
}

function unwritable(ticks: number): HandlineError {
  return optionError(
    'rhythms',
    `a length of ${ticks}/48 of a quarter note cannot be written in this metre; take values that fill its beats`,
  );
}

/** Rests from a time to the end of the measure: to the end of the beat first, then beat by beat. */
function rests(bar: Written[], from: number, metre: Metre): void {
  let at = from;
  while (at < metre.measure) {
    const end = groupEnd(metre, at);
    const whole = noteOf(end - at);
    const values = whole ? [whole] : fill(end - at);
    if (!values) throw unwritable(end - at);
    // Short ones first: they complete the beat.
    for (const value of [...values].reverse()) {
      bar.push({ at, value, tied: UNTIED, accent: false, fermata: false });
      at += value.ticks;
    }
  }
}
