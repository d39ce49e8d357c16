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
function digitsOf(part: Part, line: Line, digits: readonly DigitMark[], settings: Settings): Digits {
  if (leavesNoDigit(settings)) return () => 'none';
  const isMarked = new Uint8Array(part.notes.length);
  for (const mark of digits) isMarked[mark.note] = 1;
  const digitAt = (note: number) => {
    if (isMarked[note]) return 'ours';
    return isPrinted(part.notes[note]!, line) ? 'given' : 'none';
  };
  const shared = unisons(part, line, digitAt);
  return (note) => shared.get(note) ?? digitAt(note);
}

/** The digits of unisons on one staff, by head: it stands at one of them for all. */
function unisons(
  { notes }: Part,
  { slices }: Line,
  digitAt: Digits,
): ReadonlyMap<number, ReturnType<Digits>> {
  const shared = new Map<number, ReturnType<Digits>>();
  for (const { struck } of slices) {
    for (const key of struck) {
      if (key.notes.length < 2) continue;
      for (const note of key.notes) {
        const own = key.notes.filter((other) => notes[other]!.staff === notes[note]!.staff);
        const found = [note, ...own].map(digitAt).find((digit) => digit !== 'none');
        if (found) shared.set(note, found);
      }
    }
  }
  return shared;
}

/** Printed measure and beat, as `SliceReport.beat`. */
function beatOf(
  part: Part,
  { measure, onset }: Pick<Slice, 'measure' | 'onset'>,
): { measure: string; beat: number } {
  const own = part.measures[measure]!;
  return { measure: own.number, beat: beatInMeasure(own, onset) };
}
