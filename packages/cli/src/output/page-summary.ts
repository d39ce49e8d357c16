import type { Outcome, Tally } from '../outcome.js';
import { Attention } from './attention.js';
import { CAUTION } from './help.js';
import { whereItLies } from './mark-summary.js';

/** Where the page lies, with the warnings. */
export class PageTally implements Tally {
  readonly #attention = new Attention();
  #page: Outcome | undefined;

  add(outcome: Outcome): void {
    this.#attention.add(outcome);
    if (outcome.status === 'written') this.#page = outcome;
  }

  text(): string {
    if (this.#page === undefined) return '';
    return `${[whereItLies(this.#page), ...this.#attention.warnings.lines(), '', CAUTION].join('\n')}\n`;
  }
}
