import type { Outcome } from '../outcome.js';
import { oneLine } from './line.js';
import { WarningTally } from './warnings.js';
import { counted, fill, type Language, SUMMARY_WORDS } from './words/wording.js';

const SHOWN = 4;

/** What somebody must look at after a run: files that were not done, and warnings. */
export class Attention {
  readonly warnings: WarningTally;
  readonly #counts = { refused: 0, unwritten: 0, defect: 0 };
  readonly #first: string[] = [];

  /** @param reported whether all of it is in a file anyway */
  constructor(
    private readonly language: Language,
    readonly reported = false,
  ) {
    this.warnings = new WarningTally(language, reported);
  }

  add(outcome: Outcome): void {
    this.warnings.add(outcome);
    const { status, error } = outcome;
    if (status !== 'refused' && status !== 'unwritten' && status !== 'defect') return;
    this.#counts[status] += 1;
    if (this.#first.length < SHOWN && error !== undefined) this.#first.push(`  ${oneLine(error.message)}`);
  }

  lines(): string[] {
    const { refused, unwritten, defect } = this.#counts;
    const all = refused + unwritten + defect;
    if (all === 0) return this.warnings.lines();
    const words = SUMMARY_WORDS[this.language];
    const counts = [
      ...(refused === 0 ? [] : [counted(words.refused, refused)]),
      ...(unwritten === 0 ? [] : [counted(words.unwritten, unwritten)]),
      ...(defect === 0 ? [] : [counted(words.defects, defect)]),
    ];
    const left = all - this.#first.length;
    const more = left > 0 ? [`  ${fill(words.more, { count: left })}`] : [];
    const heading = fill(words.notDone, { counts: counts.join(', ') });
    return [heading, ...this.#first, ...more, ...this.warnings.lines()];
  }
}
