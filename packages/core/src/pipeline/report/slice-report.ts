import type { Cue } from '../../cues/cues.js';
import { directionOf } from '../../cues/depth-cues.js';
import { reasonText } from '../../cues/reasons.js';
import type { SliceKey } from '../../hands/line.js';
import type { Crossing, MotionPlan } from '../../motion/plan.js';
import type { DepthReason } from '../../motion/reason.js';
import { rounded } from '../../numeric/fixed-point.js';
import { type Fraction, subtract } from '../../numeric/fraction.js';
import type { Language } from '../../options/options.js';
import type { NoteReport, SliceReport } from '../../options/report.js';
import { beatInMeasure } from '../../score/beat.js';
import type { Draft } from '../../score/draft.js';
import type { Finger, Part } from '../../score/model.js';
import type { LineAnalysis } from '../plan.js';
import type { Selection } from '../selection.js';

/** Whose digit is in print at a note head, by its id. */
export type Digits = readonly NoteReport['digit'][];

/** The reports of the chosen slices of a line. */
export function sliceReports(
  part: Part,
  analysis: LineAnalysis,
  chosen: Selection,
  digits: Digits,
  language: Language,
): SliceReport[] {
  const cues = new Map<number, Cue>();
  for (const cue of analysis.cues) cues.set(cue.slice, cue);
  const reports: SliceReport[] = [];
  for (const { index, measure } of analysis.line.slices) {
    if (!chosen(measure)) continue;
    const report = sliceReport(part, analysis, index, digits, language);
    const cue = cues.get(index);
    if (cue !== undefined) {
      report.cue = cue.text;
      const reason = reasonOf(cue, analysis.plan);
      if (reason) report.reason = reasonText(reason, language);
    }
    reports.push(report);
  }
  return reports;
}

function sliceReport(
  part: Part,
  { line, fingering, plan, alternates, nextBest }: LineAnalysis,
  at: number,
  digits: Digits,
  language: Language,
): Draft<SliceReport> {
  const slice = line.slices[at]!;
  const { struck: fingers, terms, movement } = fingering.slices[at]!;
  const { depth, depthChange, arm, contour, roll, crossing, reason } = plan.slices[at]!;
  const measure = part.measures[slice.measure]!;
  const into = subtract(slice.onset, measure.start);
  // Spreads would cost more than all the rest of the report.
  const report: Draft<SliceReport> = {
    index: at,
    measure: measure.number,
    measureIndex: slice.measure,
    beat: beatInMeasure(measure, slice.onset),
    exactBeat: countedFromOne(into),
    keys: slice.struck.map(keyOf),
    fingers,
    notes: noteReports(part, slice.struck, fingers, digits),
    terms,
    movement,
    usage: usageOf(terms),
    depth,
    depthChange,
    reason: reason ? reasonText(reason, language) : '',
    arm: rounded(arm),
    contour: rounded(contour),
    roll: rounded(roll),
  };
  if (slice.grace) report.grace = part.notes[slice.struck[0]!.notes[0]!]!.grace;
  if (alternates) report.alternates = alternates[at]!;
  if (nextBest) report.nextBest = nextBest[at]!;
  if (crossing) report.crossing = crossingText(crossing);
  return report;
}

/** Why the move is made that a cue begins, which may be for a note further on. */
function reasonOf({ slice, end, keys }: Cue, { slices }: MotionPlan): DepthReason | undefined {
  const direction = keys.map(directionOf).find((own) => own !== undefined);
  if (direction === undefined) return undefined;
  return slices.slice(slice, end + 1).find(({ reason }) => reason?.direction === direction)?.reason;
}

function countedFromOne({ num, den }: Fraction): Fraction {
  return { num: num + den, den };
}

function noteReports(
  part: Part,
  struck: readonly SliceKey[],
  fingers: readonly (Finger | null)[],
  digits: Digits,
): NoteReport[] {
  let heads = 0;
  for (const { notes } of struck) heads += notes.length;
  // An array that grows takes room for sixteen more: most slices have one head.
  const reports = new Array<NoteReport>(heads);
  for (let nth = 0, at = 0; nth < struck.length; nth++) {
    const { key, notes } = struck[nth]!;
    for (const id of notes) {
      const { staff, voice, line, span } = part.notes[id]!;
      const finger = fingers[nth]!;
      reports[at++] = { key, finger, digit: digits[id]!, staff, voice, line, offset: span.start };
    }
  }
  return reports;
}

/** `thumb-passing 3-1 up` */
function crossingText({ kind, from, to, direction }: Crossing): string {
  return `${kind} ${from}-${to} ${direction}`;
}

function keyOf({ key }: SliceKey): number {
  return key;
}

/** What a slice costs in all, mm equivalents. */
export function usageOf(terms: SliceReport['terms']): number {
  let sum = 0;
  for (const term in terms) sum += terms[term]!;
  return rounded(sum);
}
