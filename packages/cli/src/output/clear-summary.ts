import type { Outcome } from '../outcome.js';
import { whereItLies } from './mark-summary.js';
import { warningLines } from './warnings.js';

const MOST_FILES = 15;

/** Which files were cleared, for people, on one screen. */
export function clearSummary(outcomes: readonly Outcome[]): string {
  const done = outcomes.filter(({ status }) => status === 'written' || status === 'unchanged');
  if (done.length === 0) return '';
  const more = done.length > MOST_FILES ? [`... and ${done.length - MOST_FILES} more`] : [];
  const cleared = done.filter(({ changed }) => changed === true).length;
  const lines = [
    ...done.slice(0, MOST_FILES).map(whereItLies),
    ...more,
    cleared === 0
      ? 'No marks of Handline were found.'
      : `Marks of Handline removed from ${cleared} of ${outcomes.length} scores.`,
    ...warningLines(done),
  ];
  return `${lines.join('\n')}\n`;
}
