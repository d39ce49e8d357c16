import type { WarningCode } from '@handline/core';
import { type Findings, isResult, type Outcome, type Tally } from '../outcome.js';
import { Attention } from './attention.js';
import { whereItLies } from './mark-summary.js';
import { counted, fill, type Language, SUMMARY_WORDS } from './words/wording.js';

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

/** Which files were cleared, led by what needs attention. */
export class ClearTally implements Tally {
  readonly #attention: Attention;
  readonly #first: string[] = [];
  #files = 0;
  #results = 0;
  #cleared = 0;
  #compared = false;

  /** @param reported whether the full report is written to a file anyway */
  constructor(
    private readonly language: Language,
    reported = false,
  ) {
    this.#attention = new Attention(language, reported);
  }

  add(outcome: Outcome): void {
    this.#files += 1;
    this.#attention.add(outcome);
    if (!isResult(outcome) && outcome.status !== 'done') return;
    this.#results += 1;
    this.#compared ||= outcome.compared !== undefined;
    if (outcome.changed === true) this.#cleared += 1;
    if (this.#first.length < MOST_FILES) this.#first.push(whereItLies(outcome, this.language));
  }

  text(): string {
    if (this.#results === 0) return '';
    const words = SUMMARY_WORDS[this.language];
    const left = this.#results - this.#first.length;
    const found = counted(this.#compared ? words.wouldClear : words.cleared, this.#files, {
      cleared: this.#cleared,
    });
    const lines = [
      ...(this.#files === 1 ? this.#attention.warnings : this.#attention).lines(),
      ...this.#first,
      ...(left > 0 ? [fill(words.more, { count: left })] : []),
      this.#cleared === 0 ? words.noMarks : found,
    ];
    return `${lines.join('\n')}\n`;
  }
}
