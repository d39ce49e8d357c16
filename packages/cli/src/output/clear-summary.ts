import type { WarningCode } from '@handline/core';
import type { Findings, Outcome } from '../outcome.js';
import { whereItLies } from './mark-summary.js';
import { warningLines } from './warnings.js';

const MOST_FILES = 15;

/** What clearing could not undo, by number; undefined where it undid all. */
export function whatIsLeft({ warnings }: Findings): string | undefined {
  const count = (code: WarningCode) => warnings.filter((warning) => warning.code === code).length;
  const [left, lost] = [count('NOT_OURS'), count('DIGIT_LOST')];
  const parts = [
    ...(left === 0
      ? []
      : [`left in ${left} ${left === 1 ? 'place' : 'places'} what was changed since it was marked`]),
    ...(lost === 0 ? [] : [`could not put back ${lost} of your own digits`]),
  ];
  return parts.length === 0 ? undefined : `cleared, but ${parts.join(' and ')}; --json lists every one`;
}

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
