import type { Outcome } from '../outcome.js';

/** The full report of a run: one entry for every input, in the order of the command line. */
export function jsonReport(outcomes: readonly Outcome[]): string {
  const files = outcomes.map(({ result, ...outcome }) => ({
    ...outcome,
    ...(result === undefined ? {} : { warnings: result.warnings }),
    ...(result?.report === undefined ? {} : { lines: result.report.lines, caution: result.report.caution }),
  }));
  return `${JSON.stringify({ files }, null, 2)}\n`;
}
