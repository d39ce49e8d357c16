import { rounded } from '../../numeric/fixed-point.js';
import type { LineReport } from '../../options/report.js';
import type { Part } from '../../score/model.js';
import type { LineAnalysis } from '../plan.js';
import type { Selection } from '../selection.js';
import { type Digits, usageOf } from './slice-report.js';

const HARDEST = 5;

type MeasureMovement = LineReport['hardest'][number];

/** What the chosen slices of a line come to. */
type Totals = Pick<
  LineReport,
  'notes' | 'fingered' | 'kept' | 'cues' | 'crossings' | 'depthTravel' | 'movement' | 'usage' | 'hardest'
>;

/** The totals, without the reports of the slices: most callers never look at these. */
export function totalsOf(
  part: Part,
  { line, fingering, plan, cues }: LineAnalysis,
  chosen: Selection,
  digits: Digits,
): Totals {
  const cued = new Set(cues.map(({ slice }) => slice));
  const totals = { notes: 0, fingered: 0, kept: 0, cues: 0, crossings: 0 };
  let [depthTravel, allMovement, usage] = [0, 0, 0];
  const measures = new Map<number, { movement: number; keys: number }>();
  for (const { index, measure, struck } of line.slices) {
    if (!chosen(measure)) continue;
    for (const { notes } of struck) {
      totals.notes += notes.length;
      for (const note of notes) {
        const digit = digits[note]!;
        if (digit === 'ours') totals.fingered += 1;
        else if (digit === 'given') totals.kept += 1;
      }
    }
    const { terms, movement } = fingering.slices[index]!;
    const { depthChange, crossing } = plan.slices[index]!;
    if (cued.has(index)) totals.cues += 1;
    if (crossing !== undefined) totals.crossings += 1;
    depthTravel += Math.abs(depthChange);
    allMovement += movement;
    usage += usageOf(terms);
    const own = measures.get(measure) ?? { movement: 0, keys: 0 };
    own.movement += movement;
    own.keys += struck.length;
    measures.set(measure, own);
  }
  return {
    ...totals,
    depthTravel,
    movement: rounded(allMovement),
    usage: rounded(usage),
    hardest: hardestOf(part, measures),
  };
}

/** @param measures movement and struck keys by index of the measure */
function hardestOf(
  part: Part,
  measures: ReadonlyMap<number, { readonly movement: number; readonly keys: number }>,
): LineReport['hardest'] {
  const all: MeasureMovement[] = [];
  for (const [measure, { movement, keys }] of measures)
    all.push({ measure: part.measures[measure]!.number, movement: rounded(movement / keys) });
  return all.sort(harderFirst).slice(0, HARDEST);
}

function harderFirst(a: MeasureMovement, b: MeasureMovement): number {
  return b.movement - a.movement;
}
