import {
  type AnnotateOptions,
  annotate,
  type LineReport,
  labelNotes,
  type PlannedLine,
  planDigits,
  type Report,
  type SliceReport,
} from '@handline/core';
import { CliError, Exit, usageError } from '../../exit.js';
import type { Engraver, MeasureRange, System } from '../engraver.js';
import { excerptsOf, unnamed } from '../score/excerpt.js';
import { type Named, withPartNames } from '../score/part-names.js';
import { partwise } from '../score/partwise.js';

/** One hand of a passage: its plan, and what is reported of each of its slices, by index. */
export interface PassageLine extends Named<PlannedLine> {
  readonly slices: readonly SliceReport[];
  /** Chords of the chosen measures beyond the hand. */
  readonly unreachable: LineReport['unreachable'];
}

/** One fingering of the chosen measures, engraved. */
export interface Passage {
  readonly lines: readonly PassageLine[];
  readonly systems: readonly System[];
  readonly range: MeasureRange;
  /** Printed numbers of all measures. */
  readonly measures: readonly string[];
  /** Texts of the cues in print within the chosen measures. */
  readonly cues: readonly string[];
  /** mm, of the chosen measures of all hands. */
  readonly movement: number;
  /** For every system of the passage that this one is compared with, those of its own that have the same measures. */
  readonly like: readonly { readonly from: number; readonly to: number }[];
  readonly warnings: Report['warnings'];
  readonly title?: string;
}

/** What is played and what is printed may differ: the plan takes a finger for every note. */
export function passageOf(
  bytes: Uint8Array,
  { measures, ...options }: AnnotateOptions,
  engraver: Engraver,
  other?: Passage,
): Passage {
  const printed = annotate(bytes, options);
  const whole = options.digits === undefined ? printed : annotate(bytes, { ...options, digits: 'all' });
  const reading = { ...options, ...(measures && { measures }) };
  return passageFrom({ printed, whole }, reading, engraver, other && { other });
}

/** A score that is marked already. */
interface Marked {
  readonly output: string | Uint8Array;
  readonly report: Report;
}

/**
 * A passage of a score as it is in print, with the plan of the same with a digit on every note.
 *
 * @throws CliError where the score cannot be engraved
 */
export function passageFrom(
  { printed, whole }: { readonly printed: Marked; readonly whole: Marked },
  options: Pick<AnnotateOptions, 'file' | 'limits' | 'parts' | 'staff' | 'span' | 'measures'>,
  engraver: Engraver,
  { breaks, other }: { readonly breaks?: 'own'; readonly other?: Passage } = {},
): Passage {
  const { file, limits, parts, staff, span, measures: chosen } = options;
  const reading = Object.fromEntries(
    Object.entries({ file, limits, parts, staff, span }).filter(([, value]) => value !== undefined),
  );
  const { lines: planned } = planDigits(whole.output, reading);
  const { text, measures, title, parts: names } = labelNotes(printed.output, { ...(limits && { limits }) });
  const numbers = measures[planned[0]?.line.part ?? 0] ?? [];
  const range = rangeOf(numbers, chosen);
  const shown = new Set(numbers.slice(range.first, range.last + 1));
  const reported = planned.flatMap((own) => {
    const report = reportOf(whole.report.lines, own);
    if (!report) return [];
    const unreachable = report.unreachable.filter(({ measure }) => shown.has(measure));
    return [{ ...own, slices: report.slices, unreachable }];
  });
  const lines = withPartNames(reported, names);
  const within = (line: Pick<PassageLine, 'line'>, nth: number) =>
    isWithin(line.line.slices[nth]!.measure, range);
  let movement = 0;
  for (const own of lines) {
    own.slices.forEach((slice, nth) => {
      if (within(own, nth)) movement += slice.movement;
    });
  }
  const cues = printed.report.lines.flatMap((report) => {
    const own = planned.find((line) => reportOf([report], line));
    return report.slices.flatMap(({ cue }, nth) =>
      cue !== undefined && own && within(own, nth) ? [cue] : [],
    );
  });
  const engraved = other
    ? systemsLike(other, text, engraver)
    : [engraver.systems(text, { ...(chosen && { range }), ...(breaks && { breaks }) })];
  const isPlayed = lines.some(({ line }) => line.slices.some(({ measure }) => isWithin(measure, range)));
  if (isPlayed && !engraved.flat().some(({ notes }) => notes.size > 0))
    throw new CliError(Exit.refused, 'cannot be engraved by verovio, which finds no notes in it');
  let systems = 0;
  return {
    lines,
    systems: engraved.flat(),
    like: engraved.map(({ length }) => {
      systems += length;
      return { from: systems - length, to: systems };
    }),
    warnings: printed.report.warnings,
    range,
    measures: numbers,
    cues,
    movement,
    ...(title && { title }),
  };
}

/** For every system of a passage the same measures of another text: one system, or two where it needs more room. */
function systemsLike({ systems, range }: Passage, text: string, engraver: Engraver): (readonly System[])[] {
  const readable = partwise(text);
  const excerpt = excerptsOf(unnamed(readable));
  let next = range.first;
  return systems.map(({ measures }, nth) => {
    const own = { first: next, last: next + measures - 1 };
    next = own.last + 1;
    // Name and time signature stand before the first system.
    const part = nth === 0 ? readable : excerpt(own.first, own.last);
    return engraver.systems(part, { range: own, ...(nth < systems.length - 1 && { last: 'full' }) });
  });
}

export function isWithin(measure: number, { first, last }: MeasureRange): boolean {
  return measure >= first && measure <= last;
}

function reportOf(reports: readonly LineReport[], { partId, line }: PlannedLine): LineReport | undefined {
  return reports.find(
    ({ part, hand, slices }) => part === partId && hand === line.hand && slices.length === line.slices.length,
  );
}

/** @throws CliError where there are no such measures */
function rangeOf(numbers: readonly string[], chosen: AnnotateOptions['measures']): MeasureRange {
  if (!chosen) return { first: 0, last: Math.max(0, numbers.length - 1) };
  const first = numbers.indexOf(chosen.from);
  const last = numbers.indexOf(chosen.to, Math.max(0, first));
  if (first < 0 || last < 0) {
    const missing = first < 0 ? chosen.from : chosen.to;
    throw usageError(
      `--measures: there is no measure ${missing} (there are ${numbers[0]} to ${numbers.at(-1)})`,
    );
  }
  return { first, last };
}
