import type { LineReport } from '@handline/core';
import { isResult, type Outcome, type Tally } from '../outcome.js';
import { Attention } from './attention.js';
import { CAUTION } from './help.js';
import { oneLine } from './line.js';
import { table } from './table.js';

/** Files or hands listed one by one before the rest is only counted: the summary stays on one screen. */
const MOST_ROWS = 12;
/** The same where several scores are told, after what needs attention. */
const MOST_FILES = 8;
const HARDEST = 3;

/** What was marked. One score is told by hand, several as a whole, led by what needs attention. */
export class MarkTally implements Tally {
  readonly #attention = new Attention();
  readonly #first: string[] = [];
  readonly #sums = { fingered: 0, kept: 0, notes: 0, cues: 0, crossings: 0, findings: 0 };
  #only: Outcome | undefined;
  #files = 0;
  #results = 0;
  #differ = 0;
  #done = 0;
  #caution: string | undefined;

  add(outcome: Outcome): void {
    this.#files += 1;
    this.#only = this.#files === 1 ? outcome : undefined;
    this.#attention.add(outcome);
    if (outcome.status === 'done') this.#done += 1;
    if (outcome.status === 'differs') this.#differ += 1;
    if (!isResult(outcome)) return;
    this.#results += 1;
    this.#caution ??= outcome.result?.report?.caution;
    const own = { fingered: 0, kept: 0, notes: 0, cues: 0, crossings: 0, findings: 0 };
    for (const line of outcome.result?.report?.lines ?? []) {
      for (const name of ['fingered', 'kept', 'notes', 'cues', 'crossings'] as const) own[name] += line[name];
      own.findings += line.findings.length;
    }
    for (const name of Object.keys(own) as (keyof typeof own)[]) this.#sums[name] += own[name];
    if (this.#first.length < MOST_FILES) {
      const marked = `${own.fingered + own.kept} notes fingered, ${own.cues} cues`;
      this.#first.push(`${resultOf(outcome)}: ${marked}`);
    }
  }

  text(): string {
    const body = this.#only === undefined ? this.#several() : oneFile(this.#only, this.#attention);
    return body.length === 0 ? '' : `${[...body, '', oneLine(this.#caution ?? CAUTION)].join('\n')}\n`;
  }

  #several(): string[] {
    if (this.#results + this.#done === 0) return [];
    const { fingered: ours, kept, notes, cues, crossings, findings } = this.#sums;
    const more =
      this.#results > this.#first.length ? [`... and ${this.#results - this.#first.length} more`] : [];
    const attention = this.#attention.lines();
    return [
      ...attention,
      ...(attention.length === 0 ? [] : ['']),
      `${this.#results} of ${this.#files} scores: ${fingered(ours, kept, notes)} notes fingered, ${cues} cues, ${crossings} crossings, ${doubtCount(findings)}`,
      ...(this.#done === 0 ? [] : [`${this.#done} of ${this.#files} scores were done already`]),
      ...(this.#differ === 0
        ? []
        : [`${this.#differ} of ${this.#files} results differ from what is there; nothing was written`]),
      ...(this.#first.length === 0 ? [] : ['']),
      ...this.#first,
      ...more,
    ];
  }
}

/** Where the result lies, in words. */
export function whereItLies({ input, output, backup, status }: Outcome): string {
  if (status === 'unchanged') return `${oneLine(input)}: nothing to change, the file is as it was`;
  if (status === 'done') return oneLine(`${input} -> ${output} (done already)`);
  if (status === 'differs')
    return oneLine(`${input}: the result differs from ${output}; nothing was written`);
  const place = output === '-' ? 'standard output' : output;
  const kept = backup === undefined ? '' : ` (the old file is kept as ${backup})`;
  return oneLine(`${input} -> ${place}${kept}`);
}

function oneFile(outcome: Outcome, { warnings }: Attention): string[] {
  if (outcome.status === 'done') return [whereItLies(outcome)];
  const report = outcome.result?.report;
  if (report === undefined || !isResult(outcome)) return [];
  const head = whereItLies(outcome);
  const marked = report.lines.length === 0 ? ['Nothing was marked.'] : lineTable(report.lines);
  const notes = [...sharedChords(report.lines), ...doubts(report.lines)];
  return [head, '', ...marked, ...spaced(notes), ...spaced(warnings.lines())];
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

/** Among several results the place alone: the name is the input's. */
function resultOf(outcome: Outcome): string {
  return outcome.status !== 'written' ? whereItLies(outcome) : oneLine(outcome.output ?? outcome.input);
}

function spaced(lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['', ...lines];
}
