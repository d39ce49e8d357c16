import { cautionText } from '../../cues/wording.js';
import type { Line, Slice } from '../../hands/line.js';
import type { DigitMark } from '../../musicxml/marks/edit.js';
import { compare } from '../../numeric/fraction.js';
import { type LineReport, REPORT_VERSION, type Report, type Shared } from '../../options/report.js';
import { beatInMeasure } from '../../score/beat.js';
import type { Warning } from '../../score/errors.js';
import type { Part } from '../../score/model.js';
import type { LineAnalysis } from '../plan.js';
import { isPrinted, leavesNoDigit } from '../printed.js';
import type { Selection } from '../selection.js';
import type { Settings } from '../settings.js';
import { waysOut, whoTakes } from '../warnings.js';
import { type Digits, sliceReports } from './slice-report.js';
import { totalsOf } from './totals.js';

/** The report on all lines. */
export function reportOf(
  lines: readonly LineReport[],
  { language }: Settings,
  warnings: readonly Warning[],
): Report {
  return { version: REPORT_VERSION, lines, warnings, caution: cautionText(language) };
}

/**
 * The report on the selected measures of a marked hand.
 *
 * @param digits of ours, those of the line at least
 */
export function lineReport(
  part: Part,
  analysis: LineAnalysis,
  digits: readonly DigitMark[],
  settings: Settings,
  chosen: Selection,
): LineReport {
  const { line, plan, advice } = analysis;
  const inPrint = digitsOf(part, line, digits, settings);
  const { hardest, ...totals } = totalsOf(part, analysis, chosen, inPrint);
  return {
    part: part.id,
    hand: line.hand,
    ...totals,
    slices: settings.slices ? sliceReports(part, analysis, chosen, inPrint, settings.language) : [],
    hardest,
    findings: plan.findings
      .filter(({ slice }) => chosen(line.slices[slice]!.measure))
      .map(({ slice, message }) => ({ ...beatOf(part, line.slices[slice]!), message })),
    unreachable: advice
      .filter(({ slice }) => chosen(line.slices[slice]!.measure))
      .map((own) => ({
        ...beatOf(part, line.slices[own.slice]!),
        keys: line.slices[own.slice]!.struck.map(({ key }) => key),
        left: own.left,
        otherHand: own.otherHand,
        ways: own.ways,
        message: waysOut(line, own, settings.language),
      })),
    ...(settings.shareHands && { shared: sharedOf(part, analysis, chosen, settings) }),
  };
}

/** The chords that this hand shares with the other, in time. */
function sharedOf(part: Part, { shares }: LineAnalysis, chosen: Selection, { language }: Settings): Shared[] {
  return shares
    .map((own) => ({ own, note: part.notes[own.kept]! }))
    .filter(({ note }) => chosen(note.measure))
    .sort((a, b) => compare(a.note.onset, b.note.onset))
    .map(({ own: { takenBy, keys, taken }, note }) => ({
      ...beatOf(part, note),
      takenBy,
      keys,
      message: whoTakes(
        takenBy,
        keys,
        Array.from(taken, (id) => part.notes[id]!),
        language,
      ),
    }));
}

/** Whose digit is in print at each note head of the part. */
function digitsOf(part: Part, line: Line, marks: readonly DigitMark[], settings: Settings): Digits {
  const digits = new Array<Digits[number]>(part.notes.length).fill('none');
  if (leavesNoDigit(settings)) return digits;
  for (const note of part.notes) if (isPrinted(note, line)) digits[note.id] = 'given';
  for (const { note } of marks) digits[note] = 'ours';
  const alone = [...digits];
  for (const { struck } of line.slices) {
    for (const { notes } of struck) {
      if (notes.length > 1) for (const note of notes) digits[note] = sharedDigit(note, notes, part, alone);
    }
  }
  return digits;
}

/** The digit of a head among those of a unison: on one staff it stands at one of them for all. */
function sharedDigit(
  head: number,
  heads: readonly number[],
  { notes }: Part,
  digits: Digits,
): Digits[number] {
  const own = heads.filter((other) => notes[other]!.staff === notes[head]!.staff);
  return [head, ...own].map((note) => digits[note]!).find((digit) => digit !== 'none') ?? 'none';
}

/** Printed measure and beat, as `SliceReport.beat`. */
function beatOf(
  part: Part,
  { measure, onset }: Pick<Slice, 'measure' | 'onset'>,
): { measure: string; beat: number } {
  const own = part.measures[measure]!;
  return { measure: own.number, beat: beatInMeasure(own, onset) };
}
