import { REPORT_VERSION, type Report } from '@handline/core';
import type { Outcome } from '../outcome.js';

/** What became of one input, with the library's report on it where there is one. */
export interface FileReport extends Omit<Outcome, 'result'>, Partial<Report> {}

/** What `--json` prints: one entry for every input, in the order of the command line. */
export interface RunReport {
  /** Version of the report's form, as of every entry's. */
  readonly version: string;
  readonly files: readonly FileReport[];
}

/** The full report of a run. */
export function jsonReport(outcomes: readonly Outcome[]): string {
  const files = outcomes.map(
    ({ result, ...outcome }): FileReport => ({
      ...outcome,
      ...result?.report,
      ...(result && { warnings: result.warnings }),
    }),
  );
  const report: RunReport = { version: REPORT_VERSION, files };
  return `${JSON.stringify(report, null, 2)}\n`;
}
