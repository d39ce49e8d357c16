import { optionError } from '../score/errors.js';
import type { Measure } from '../score/model.js';
import type { Settings } from './settings.js';

/** Which measures, by index, are to be marked. */
export type Selection = (measure: number) => boolean;

/**
 * @param measures of one part
 * @throws HandlineError OPTION where no measure has a number that was asked for, or the last comes before the first
 */
export function selectMeasures(measures: readonly Measure[], settings: Settings): Selection {
  const range = settings.measures;
  if (!range) return everyMeasure;
  const from = measures.findIndex(({ number }) => number === range.from);
  const to = measures.findLastIndex(({ number }) => number === range.to);
  if (from < 0 || to < from) {
    const [first, last] = [measures[0]?.number ?? '-', measures.at(-1)?.number ?? '-'];
    const [asked, isOne] = [`${range.from}-${range.to}`, range.from === range.to];
    const message =
      from >= 0 && to >= 0
        ? `${asked}: the last measure comes before the first; write ${range.to}-${range.from}`
        : `${isOne ? `there is no measure ${range.from} in` : `${asked} is not a range of`} this score; it runs from ${first} to ${last}`;
    throw optionError('measures', message, settings.file === undefined ? {} : { file: settings.file });
  }
  return (measure) => measure >= from && measure <= to;
}

function everyMeasure(): boolean {
  return true;
}
