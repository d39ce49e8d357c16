import { describe, type Place, type Warning } from '@handline/core';
import { oneLine } from './line.js';

/** Warnings shown of one kind before the rest is only counted. */
const SHOWN_OF_A_KIND = 2;
const SHOWN_IN_ALL = 6;

/** Warnings grouped by kind, the first few of each as lines, the rest as a number. */
export function warningLines(warnings: readonly Warning[]): string[] {
  const kinds = new Map<string, Warning[]>();
  for (const warning of warnings) {
    const kind = kinds.get(warning.code);
    if (kind === undefined) kinds.set(warning.code, [warning]);
    else kind.push(warning);
  }
  const lines: string[] = [];
  for (const [code, kind] of kinds) {
    const room = Math.min(SHOWN_OF_A_KIND, SHOWN_IN_ALL - lines.length, kind.length);
    for (const { message, place } of kind.slice(0, room)) {
      lines.push(`  ${code}: ${oneLine(describe(message, withoutFile(place)))}`);
    }
    if (kind.length > room) lines.push(`  ${code}: ${room === 0 ? '' : 'and '}${kind.length - room} more`);
  }
  return lines.length === 0 ? [] : [`Warnings (${warnings.length}; all of them with --json):`, ...lines];
}

/** The summary names the file already. */
function withoutFile({ file: _, ...place }: Place): Place {
  return place;
}
