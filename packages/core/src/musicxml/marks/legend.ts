import { compare, toNumber } from '../../numeric/fraction.js';
import type { Note, Part, Score } from '../../score/model.js';
import type { ReadResult } from '../read/score.js';
import { type Direction, type DirectionOptions, insertLines, placeOf } from './cue.js';

/** Of notes beside whose like a line of the legend has room (measured, docs/cues.md). */
const LEAST_ONSETS = 6;
const MOVES_TIME = new Set(['note', 'forward', 'backup']);

/**
 * The legend: directions below the lowest staff, one for each line, at the beginning of the last measure that has room for
 * them up to the end of the line, and so nearly always under the last system. No credit, because MuseScore lays the lines of credits over each other and verovio cuts them off (docs/cues.md).
 */
export function writeLegend(
  text: string,
  { score, elements, measureElements }: Pick<ReadResult, 'score' | 'elements' | 'measureElements'>,
  legend: string,
  options: DirectionOptions,
): Direction[] {
  const place = legendPlace(score);
  if (place === undefined) return [];
  const { part: at, measure } = place;
  const part = score.parts[at]!;
  const first = firstIn(part, measure);
  const content = measureElements[at]![measure]!;
  const head =
    (first === undefined ? undefined : placeOf(elements[at]![first.id]!).head) ??
    content.children.find(({ name }) => MOVES_TIME.has(name)) ??
    placeOf(elements[at]!.at(-1)!).head;
  const staff = part.staves > 1 ? String(part.staves) : undefined;
  const direction = { kind: 'legend', text: legend, placement: 'below', voice: undefined, staff } as const;
  return insertLines(text, head, direction, options);
}

/** The part and the measure at which a legend begins; undefined where there are no notes. */
export function legendPlace({
  parts,
}: Score): { readonly part: number; readonly measure: number } | undefined {
  const part = parts.findLastIndex(({ notes }) => notes.length > 0);
  return part < 0 ? undefined : { part, measure: lastWithRoom(parts[part]!) };
}

/** The last measure from which on a part has so many different onsets; else the first. */
function lastWithRoom({ notes }: Part): number {
  const onsets = new Set<number>();
  for (let at = notes.length - 1; at >= 0; at--) {
    const { measure, onset } = notes[at]!;
    onsets.add(toNumber(onset));
    if (onsets.size >= LEAST_ONSETS) return measure;
  }
  return 0;
}

/** The note of the lowest staff with which a measure begins. */
function firstIn({ notes, measures, staves }: Part, which: number): Note | undefined {
  const { start } = measures[which]!;
  return notes.find(
    ({ measure, staff, onset, grace }) =>
      measure === which && staff === staves && grace < 0 && compare(onset, start) === 0,
  );
}
