import type { LineReport } from '@handline/core';
import type { Outcome } from '../outcome.js';
import { CAUTION } from './help.js';
import { oneLine } from './line.js';
import { table } from './table.js';
import { warningLines } from './warnings.js';

/** Files or hands listed one by one before the rest is only counted: the summary stays on one screen. */
const MOST_ROWS = 12;
const HARDEST = 3;

/** What was marked, for people, on one screen. */
export function markSummary(outcomes: readonly Outcome[]): string {
  const [only] = outcomes;
  const body = outcomes.length === 1 && only !== undefined ? oneFile(only) : manyFiles(outcomes);
  if (body.length === 0) return '';
  const caution = outcomes.find((outcome) => outcome.result?.report !== undefined)?.result?.report?.caution;
  return `${[...body, '', oneLine(caution ?? CAUTION)].join('\n')}\n`;
}

/** Where the result lies, in words. */
export function whereItLies({ input, output, backup, status }: Outcome): string {
  if (status === 'unchanged') return `${oneLine(input)}: nothing to change, the file is as it was`;
  const place = output === '-' ? 'standard output' : output;
  const kept = backup === undefined ? '' : ` (the old file is kept as ${backup})`;
  return oneLine(`${input} -> ${place}${kept}`);
}

function oneFile(outcome: Outcome): string[] {
  const report = outcome.result?.report;
  if (report === undefined || (outcome.status !== 'written' && outcome.status !== 'unchanged')) return [];
  const head = whereItLies(outcome);
  const marked = report.lines.length === 0 ? ['Nothing was marked.'] : lineTable(report.lines);
  const notes = [...sharedChords(report.lines), ...doubts(report.lines)];
  return [head, '', ...marked, ...spaced(notes), ...spaced(warningLines([outcome]))];
}

/** How many chords the hands share, and where the first ones are, on one line. */
function sharedChords(lines: readonly LineReport[]): readonly string[] {
  // Both hands tell of a chord: it counts where it is taken, or where it is given if the other hand is not marked.
  const marked = new Set(lines.map(({ part, hand }) => `${part} ${hand}`));
  const places = lines.flatMap(({ part, hand, shared = [] }) =>
    shared
      .filter(({ takenBy }) => takenBy === hand || !marked.has(`${part} ${takenBy}`))
      .map(({ measure }) => `measure ${oneLine(measure)}`),
  );
  if (places.length === 0) return [];
  const first = [...new Set(places)].slice(0, HARDEST).join(', ');
  return [
    `${places.length} ${places.length === 1 ? 'chord' : 'chords'} shared between the hands: ${first}${places.length > HARDEST ? ', ...' : ''} (--json tells how)`,
  ];
}

/** How many places of the motion are in doubt, and where the first ones are, on one line. */
function doubts(lines: readonly LineReport[]): readonly string[] {
  const places = lines.flatMap(({ hand, findings }) =>
    findings.map(({ measure }) => `${hand} hand measure ${oneLine(measure)}`),
  );
  if (places.length === 0) return [];
  const first = [...new Set(places)].slice(0, HARDEST).join(', ');
  return [
    `${doubtCount(places.length)}: ${first}${places.length > HARDEST ? ', ...' : ''} (--json tells why)`,
  ];
}

function doubtCount(count: number): string {
  return `${count} ${count === 1 ? 'doubt' : 'doubts'} about the motion`;
}

const HEADINGS = ['', 'notes fingered', 'cues', 'crossings', 'forearm in and out', 'hardest measures'];

function lineTable(lines: readonly LineReport[]): string[] {
  const parts = new Set(lines.map((line) => line.part));
  const rows = lines
    .slice(0, MOST_ROWS)
    .map((line) => [
      oneLine(parts.size === 1 ? `${line.hand} hand` : `${line.part}, ${line.hand} hand`),
      fingered(line.fingered, line.kept, line.notes),
      `${line.cues}`,
      `${line.crossings}`,
      metres(line.depthTravel),
      hardest(line),
    ]);
  const more = lines.length > MOST_ROWS ? [`... and ${lines.length - MOST_ROWS} more`] : [];
  return [...table([HEADINGS, ...rows]), ...more];
}

/** `412 of 412 (1 kept)`: digits on the page, those that the file had among them. */
function fingered(ours: number, kept: number, notes: number): string {
  return `${ours + kept} of ${notes}${kept === 0 ? '' : ` (${kept} kept)`}`;
}

function hardest(line: LineReport): string {
  const measures = line.hardest.slice(0, HARDEST).map(({ measure }) => oneLine(measure));
  return measures.length === 0 ? '-' : measures.join(', ');
}

/** A travel in mm, in the unit that a reader can picture. */
function metres(mm: number): string {
  return mm < 1000 ? `${Math.round(mm / 10)} cm` : `${(mm / 1000).toFixed(1)} m`;
}

function manyFiles(outcomes: readonly Outcome[]): string[] {
  const done = outcomes.filter(({ status }) => status === 'written' || status === 'unchanged');
  if (done.length === 0) return [];
  const total = (value: (line: LineReport) => number, of: readonly Outcome[] = done) =>
    of.flatMap(({ result }) => result?.report?.lines ?? []).reduce((sum, line) => sum + value(line), 0);
  const listed = done.slice(0, MOST_ROWS).map((outcome) => {
    const sum = (value: (line: LineReport) => number) => total(value, [outcome]);
    return `${resultOf(outcome)}: ${sum((line) => line.fingered + line.kept)} notes fingered, ${sum((line) => line.cues)} cues`;
  });
  const more = done.length > MOST_ROWS ? [`... and ${done.length - MOST_ROWS} more`] : [];
  return [
    ...listed,
    ...more,
    '',
    `${done.length} of ${outcomes.length} scores: ${fingered(
      total((line) => line.fingered),
      total((line) => line.kept),
      total((line) => line.notes),
    )} notes fingered, ${total((line) => line.cues)} cues, ${total((line) => line.crossings)} crossings, ${doubtCount(
      total((line) => line.findings.length),
    )}`,
    ...spaced(warningLines(done)),
  ];
}

/** Among several results the place alone: the name is the input's. */
function resultOf(outcome: Outcome): string {
  return outcome.status === 'unchanged' ? whereItLies(outcome) : oneLine(outcome.output ?? outcome.input);
}

function spaced(lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['', ...lines];
}
