import { describe, type Warning } from '@handline/core';
import type { Outcome } from '../outcome.js';
import { oneLine } from './line.js';

/** Warnings shown of one kind, and in all, before the rest is only counted. */
const SHOWN_OF_A_KIND = 2;
const SHOWN_IN_ALL = 6;

/** Warnings of one or more files, grouped by kind: the first few of each as lines, the rest as a number. */
export function warningLines(outcomes: readonly Outcome[]): string[] {
  const warnings = outcomes.flatMap(({ input, result }) =>
    (result?.warnings ?? []).map((warning) => placed(warning, outcomes.length > 1 ? input : undefined)),
  );
  const lines: string[] = [];
  let shown = 0;
  for (const [code, kind] of byKind(warnings)) {
    const room = Math.min(SHOWN_OF_A_KIND, SHOWN_IN_ALL - shown, kind.length);
    shown += room;
    for (const { message, place } of kind.slice(0, room)) {
      lines.push(`  ${oneLine(describe(message, place))} (${code})`);
    }
    if (kind.length > room)
      lines.push(`  ${room === 0 ? '' : '... and '}${kind.length - room} more (${code})`);
  }
  return lines.length === 0 ? [] : [`Warnings (${warnings.length}; all of them with --json):`, ...lines];
}

/** With the file's name where there are several, without it where the summary has named it. */
function placed({ code, message, place }: Warning, file: string | undefined): Warning {
  const { file: _, ...rest } = place;
  return { code, message, place: file === undefined ? rest : { ...rest, file } };
}

function byKind(warnings: readonly Warning[]): Map<Warning['code'], Warning[]> {
  const kinds = new Map<Warning['code'], Warning[]>();
  for (const warning of warnings) {
    const kind = kinds.get(warning.code);
    if (kind === undefined) kinds.set(warning.code, [warning]);
    else kind.push(warning);
  }
  return kinds;
}
