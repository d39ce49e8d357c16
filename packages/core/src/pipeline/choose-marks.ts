import type { Cue } from '../cues/cues.js';
import type { CueKey } from '../cues/keys.js';
import { legendText } from '../cues/wording.js';
import { includesHand, type Line } from '../hands/line.js';
import type { CueMark, DigitMark, Marks } from '../musicxml/marks/edit.js';
import { HandlineError } from '../score/errors.js';
import type { Measure, Score } from '../score/model.js';
import { digitMarks } from './choose-digits.js';
import { handPlacement } from './placement.js';
import type { LineAnalysis } from './plan.js';
import type { Settings } from './settings.js';

/** Which measures, by index, are to be marked. */
export type Selection = (measure: number) => boolean;

/**
 * @param measures of one part
 * @throws HandlineError OPTION where no measure has a number that was asked for
 */
export function selectMeasures(measures: readonly Measure[], settings: Settings): Selection {
  const range = settings.measures;
  if (!range) return everyMeasure;
  const from = measures.findIndex(({ number }) => number === range.from);
  const to = measures.findLastIndex(({ number }) => number === range.to);
  if (from < 0 || to < from) {
    const [first, last] = [measures[0]?.number ?? '-', measures.at(-1)?.number ?? '-'];
    throw new HandlineError(
      'OPTION',
      `measures: ${range.from}-${range.to} is no range of this score; it runs from ${first} to ${last}`,
      settings.file === undefined ? {} : { file: settings.file },
    );
  }
  return (measure) => measure >= from && measure <= to;
}

function everyMeasure(): boolean {
  return true;
}

/** What is to be printed for the analysed lines. */
export function marksOf(
  score: Score,
  lines: readonly LineAnalysis[],
  settings: Settings,
  select: (part: number) => Selection,
): Marks {
  const digits: DigitMark[] = [];
  const cues: CueMark[] = [];
  const used = new Set<CueKey>();
  for (const analysis of lines) {
    const { line } = analysis;
    if (!includesHand(settings.hands, line.hand)) continue;
    const chosen = select(line.part);
    if (settings.digits !== 'none') {
      for (const mark of digitMarks(score, analysis, settings, chosen)) digits.push(mark);
    }
    for (const cue of analysis.cues) {
      if (!chosen(line.slices[cue.slice]!.measure)) continue;
      const mark = cueMark(line, cue);
      if (mark) cues.push(mark);
      for (const key of cue.keys) used.add(key);
    }
  }
  return {
    digits,
    cues,
    replaceDigits: settings.existing === 'replace',
    ...(settings.legend && {
      legend: legendText(settings.language, settings.layers, settings.wording, [...used]),
    }),
  };
}

/** A cue stands before the slice's lowest struck note; the writer keeps it out of chords. */
function cueMark(line: Line, { slice, text }: Cue): CueMark | undefined {
  const note = line.slices[slice]!.struck[0]?.notes[0];
  return note === undefined
    ? undefined
    : { part: line.part, note, text, placement: handPlacement(line.hand) };
}
