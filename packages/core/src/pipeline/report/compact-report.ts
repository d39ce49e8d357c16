import { checkReport } from '../../options/allowed.js';
import type { CompactReport, CompactSlice, Report, SliceReport } from '../../options/report.js';

/**
 * A report as short rows: what a program needs to show the marks, in about a twentieth of the JSON.
 *
 * @param report as `annotate` gives it
 */
export function compactReport(report: Report): CompactReport {
  checkReport(report);
  const { version, lines, warnings, caution } = report;
  return {
    version,
    lines: lines.map(({ part, hand, slices }) => ({ part, hand, slices: slices.map(rowOf) })),
    warnings,
    caution,
  };
}

function rowOf({ measureIndex, exactBeat, keys, fingers, depth, cue }: SliceReport): CompactSlice {
  const { num, den } = exactBeat;
  const beat = den === 1 ? `${num}` : `${num}/${den}`;
  return cue === undefined
    ? [measureIndex, beat, keys, fingers, depth]
    : [measureIndex, beat, keys, fingers, depth, cue];
}
