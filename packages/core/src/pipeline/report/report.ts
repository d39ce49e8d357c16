import { cautionText } from '../../cues/wording.js';
import type { Line, Slice } from '../../hands/line.js';
import type { DigitMark } from '../../musicxml/marks/edit.js';
import { rounded, sumOf } from '../../numeric/fixed-point.js';
import { compare } from '../../numeric/fraction.js';
import {
  type LineReport,
  REPORT_VERSION,
  type Report,
  type Shared,
  type SliceReport,
} from '../../options/report.js';
import { quarterInMeasure } from '../../score/beat.js';
import type { Warning } from '../../score/errors.js';
import type { Part } from '../../score/model.js';
import type { LineAnalysis } from '../plan.js';
import { isPrinted, leavesNoDigit } from '../printed.js';
import type { Selection } from '../selection.js';
import type { Settings } from '../settings.js';
import { waysOut, whoTakes } from '../warnings.js';
import { type Digits, sliceReports } from './slice-report.js';

const HARDEST = 5;

type MeasureMovement = LineReport['hardest'][number];

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
  const indices = chosenSlices(line, chosen);
  const slices = sliceReports(
    part,
    analysis,
    indices,
    digitsOf(part, line, digits, settings),
    settings.language,
  );
  const movements = slices.map(movementOf);
  return {
    part: part.id,
    hand: line.hand,
    ...countHeads(slices),
    cues: slices.filter(hasCue).length,
    crossings: slices.filter(hasCrossing).length,
    depthTravel: sumOf(slices.map(travelOf)),
    movement: rounded(sumOf(movements)),
    usage: rounded(sumOf(slices.map(usageOf))),
    slices,
    hardest: hardest(part, line, indices, movements),
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

function chosenSlices({ slices }: Line, chosen: Selection): number[] {
  const indices: number[] = [];
  for (const { index, measure } of slices) if (chosen(measure)) indices.push(index);
  return indices;
}

/** Whose digit is in print at each note head of the part. */
function digitsOf(part: Part, line: Line, digits: readonly DigitMark[], settings: Settings): Digits {
  if (leavesNoDigit(settings)) return () => 'none';
  const isMarked = new Uint8Array(part.notes.length);
  for (const mark of digits) isMarked[mark.note] = 1;
  return (note) => {
    if (isMarked[note]) return 'ours';
    return isPrinted(part.notes[note]!, line) ? 'given' : 'none';
  };
}

/** Note heads of some slices: all of them, those that have digits of ours, and those that keep the file's. */
function countHeads(slices: readonly SliceReport[]): Pick<LineReport, 'notes' | 'fingered' | 'kept'> {
  let [all, fingered, kept] = [0, 0, 0];
  for (const { notes } of slices) {
    all += notes.length;
    for (const { digit } of notes) {
      if (digit === 'ours') fingered += 1;
      else if (digit === 'given') kept += 1;
    }
  }
  return { notes: all, fingered, kept };
}

/** Printed measure and beat, from 1, in quarter notes. */
function beatOf(
  part: Part,
  { measure, onset }: Pick<Slice, 'measure' | 'onset'>,
): { measure: string; beat: number } {
  const own = part.measures[measure]!;
  return { measure: own.number, beat: quarterInMeasure(own, onset) };
}

function hasCue({ cue }: SliceReport): boolean {
  return cue !== undefined;
}

function hasCrossing({ crossing }: SliceReport): boolean {
  return crossing !== undefined;
}

function travelOf({ depthChange }: SliceReport): number {
  return Math.abs(depthChange);
}

function movementOf({ movement }: SliceReport): number {
  return movement;
}

function usageOf({ usage }: SliceReport): number {
  return usage;
}

function hardest(
  part: Part,
  line: Line,
  indices: readonly number[],
  movements: readonly number[],
): LineReport['hardest'] {
  const byMeasure = new Map<number, { movement: number; keys: number }>();
  for (let nth = 0; nth < indices.length; nth++) {
    const slice = line.slices[indices[nth]!]!;
    const entry = byMeasure.get(slice.measure) ?? { movement: 0, keys: 0 };
    entry.movement += movements[nth]!;
    entry.keys += slice.struck.length;
    byMeasure.set(slice.measure, entry);
  }
  const measures: MeasureMovement[] = [];
  for (const [measure, { movement, keys }] of byMeasure) {
    measures.push({ measure: part.measures[measure]!.number, movement: rounded(movement / keys) });
  }
  return measures.sort(harderFirst).slice(0, HARDEST);
}

function harderFirst(a: MeasureMovement, b: MeasureMovement): number {
  return b.movement - a.movement;
}
