import type { LineReport } from '@handline/core';
import { isResult, type Outcome, type Tally } from '../outcome.js';
import { Attention } from './attention.js';
import { CAUTION_TEXT } from './help.js';
import { oneLine } from './line.js';
import { table } from './table.js';
import { counted, fill, type Language, SUMMARY_WORDS } from './words/wording.js';
import type { Counted, SummaryWords } from './words/words.js';

/** Files or hands listed one by one before the rest is only counted: the summary stays on one screen. */
const MOST_ROWS = 12;
/** The same where several scores are told, after what needs attention. */
const MOST_FILES = 8;
const HARDEST = 3;

/** What was marked. One score is told by hand, several as a whole, led by what needs attention. */
export class MarkTally implements Tally {
  readonly #attention: Attention;
  readonly #words: SummaryWords;
  readonly #first: string[] = [];
  readonly #same: string[] = [];
  readonly #sums = { fingered: 0, kept: 0, notes: 0, cues: 0, crossings: 0, findings: 0 };
  #only: Outcome | undefined;
  #files = 0;
  #results = 0;
  readonly #compared = { same: 0, other: 0, missing: 0 };
  #done = 0;
  #caution: string | undefined;

  /** @param reported whether the full report is written to a file anyway */
  constructor(
    private readonly language: Language,
    reported = false,
  ) {
    this.#attention = new Attention(language, reported);
    this.#words = SUMMARY_WORDS[language];
  }

  add(outcome: Outcome): void {
    this.#files += 1;
    this.#only = this.#files === 1 ? outcome : undefined;
    this.#attention.add(outcome);
    if (outcome.status === 'done') this.#done += 1;
    if (outcome.compared !== undefined) this.#compared[outcome.compared] += 1;
    if (!isResult(outcome)) return;
    this.#results += 1;
    this.#caution ??= outcome.result?.report?.caution;
    const own = { fingered: 0, kept: 0, notes: 0, cues: 0, crossings: 0, findings: 0 };
    for (const line of outcome.result?.report?.lines ?? []) {
      for (const name of ['fingered', 'kept', 'notes', 'cues', 'crossings'] as const) own[name] += line[name];
      own.findings += line.findings.length;
    }
    for (const name of Object.keys(own) as (keyof typeof own)[]) this.#sums[name] += own[name];
    // What differs is what somebody compares for, and is told first.
    const rows = outcome.compared === 'same' ? this.#same : this.#first;
    if (rows.length < MOST_FILES) {
      const place = resultOf(outcome, this.language);
      const [digits, words] = [own.fingered + own.kept, this.#words];
      const notes = counted(words.fingeredNotes, digits, { fingered: digits });
      rows.push(fill(words.score, { place, notes, cues: counted(words.cues, own.cues) }));
    }
  }

  text(): string {
    const body =
      this.#only === undefined ? this.#several() : oneFile(this.#only, this.#attention, this.language);
    if (body.length === 0) return '';
    const caution = this.#results === 0 ? [] : ['', oneLine(this.#caution ?? CAUTION_TEXT)];
    return `${[...body, ...caution].join('\n')}\n`;
  }

  #several(): string[] {
    if (this.#results + this.#done === 0) return [];
    const { fingered: ours, kept, notes, cues, crossings, findings } = this.#sums;
    const words = this.#words;
    const files = this.#files;
    const rows = [...this.#first, ...this.#same].slice(0, MOST_FILES);
    const left = this.#results - rows.length;
    const attention = this.#attention.lines();
    const many = (text: Counted, count: number) => (count === 0 ? [] : [counted(text, count, { files })]);
    return [
      ...attention,
      ...(attention.length === 0 ? [] : ['']),
      ...(this.#results === 0
        ? []
        : [
            counted(words.scores, files, {
              results: this.#results,
              notes: counted(words.fingeredNotes, notes, { fingered: fingered(ours, kept, notes, words) }),
              cues: counted(words.cues, cues),
              crossings: counted(words.crossings, crossings),
              doubts: counted(words.doubts, findings),
            }),
          ]),
      ...many(words.doneAlready, this.#done),
      ...many(words.differ, this.#compared.other),
      ...many(words.lacking, this.#compared.missing),
      ...(rows.length === 0 ? [] : ['']),
      ...rows,
      ...(left > 0 ? [fill(words.more, { count: left })] : []),
    ];
  }
}

/** Where the result lies, in words. */
export function whereItLies(outcome: Outcome, language: Language): string {
  const words = SUMMARY_WORDS[language];
  const { input, output = '', backup, status, compared } = outcome;
  const said = (text: string) => oneLine(fill(text, { input, output }));
  if (status === 'done') return said(words.done);
  if (compared === 'missing') return said(words.missing);
  if (compared === 'same') return said(input === output ? words.sameAsIt : words.same);
  if (compared === 'other') return said(input === output ? words.differsFromIt : words.differs);
  if (status === 'unchanged') return said(words.unchanged);
  const place = output === '-' ? words.standardOutput : output;
  const kept = backup === undefined ? '' : fill(words.backup, { backup });
  return oneLine(`${input} -> ${place}${kept}`);
}

function oneFile(outcome: Outcome, { warnings, reported }: Attention, language: Language): string[] {
  if (outcome.status === 'done') return [whereItLies(outcome, language)];
  const report = outcome.result?.report;
  if (report === undefined || !isResult(outcome)) return [];
  const words = SUMMARY_WORDS[language];
  const head = whereItLies(outcome, language);
  const marked = report.lines.length === 0 ? [words.nothingMarked] : lineTable(report.lines, words);
  const notes = [...sharedChords(report.lines, words, reported), ...doubts(report.lines, words, reported)];
  return [head, '', ...marked, ...spaced(notes), ...spaced(warnings.lines())];
}

/** How many chords the hands share, and where the first ones are, on one line. */
function sharedChords(
  lines: readonly LineReport[],
  words: SummaryWords,
  reported: boolean,
): readonly string[] {
  // Both hands tell of a chord: it counts where it is taken, or where it is given if the other hand is not marked.
  const marked = new Set(lines.map(({ part, hand }) => `${part} ${hand}`));
  const places = lines.flatMap(({ part, hand, shared = [] }) =>
    shared
      .filter(({ takenBy }) => takenBy === hand || !marked.has(`${part} ${takenBy}`))
      .map(({ measure }) => fill(words.measure, { measure: oneLine(measure) })),
  );
  if (places.length === 0) return [];
  const text = counted(words.shared, places.length);
  return [fill(words.placed, { text, places: firstOf(places), advice: reported ? '' : words.tellsHow })];
}

/** How many places of the motion are in doubt, and where the first ones are, on one line. */
function doubts(lines: readonly LineReport[], words: SummaryWords, reported: boolean): readonly string[] {
  const places = lines.flatMap(({ hand, findings }) =>
    findings.map(
      ({ measure }) => `${words.hands[hand]} ${fill(words.measure, { measure: oneLine(measure) })}`,
    ),
  );
  if (places.length === 0) return [];
  const text = counted(words.doubts, places.length);
  return [fill(words.placed, { text, places: firstOf(places), advice: reported ? '' : words.tellsWhy })];
}

function firstOf(places: readonly string[]): string {
  const first = [...new Set(places)].slice(0, HARDEST).join(', ');
  return places.length > HARDEST ? `${first}, ...` : first;
}

function lineTable(lines: readonly LineReport[], words: SummaryWords): string[] {
  const parts = new Set(lines.map((line) => line.part));
  const travel = travels(lines, words);
  const rows = lines
    .slice(0, MOST_ROWS)
    .map((line) => [
      oneLine(parts.size === 1 ? words.hands[line.hand] : `${line.part}, ${words.hands[line.hand]}`),
      fingered(line.fingered, line.kept, line.notes, words),
      `${line.cues}`,
      `${line.crossings}`,
      travel(line.depthTravel),
      hardest(line),
    ]);
  const left = lines.length - MOST_ROWS;
  const more = left > 0 ? [fill(words.more, { count: left })] : [];
  return [...table([['', ...words.headings], ...rows]), ...more];
}

/** `412 of 412 (1 from the file)`: digits on the page, those that the file had among them. */
function fingered(ours: number, kept: number, notes: number, words: SummaryWords): string {
  const all = fill(words.fingered, { digits: ours + kept, notes });
  return kept === 0 ? all : all + fill(words.kept, { count: kept });
}

function hardest(line: LineReport): string {
  const measures = line.hardest.slice(0, HARDEST).map(({ measure }) => oneLine(measure));
  return measures.length === 0 ? '-' : measures.join(', ');
}

/** Travels in mm, all in the unit in which a reader can picture the longest. */
function travels(lines: readonly LineReport[], { point }: SummaryWords): (mm: number) => string {
  const inMetres = lines.some(({ depthTravel }) => depthTravel >= 1000);
  return (mm) => (inMetres ? `${(mm / 1000).toFixed(1).replace('.', point)} m` : `${Math.round(mm / 10)} cm`);
}

/** Among several results the place alone: the name is the input's. */
function resultOf(outcome: Outcome, language: Language): string {
  return outcome.status !== 'written'
    ? whereItLies(outcome, language)
    : oneLine(outcome.output ?? outcome.input);
}

function spaced(lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['', ...lines];
}
