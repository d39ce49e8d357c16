import { cautionText } from '@handline/core';
import type { Outcome, Tally } from '../outcome.js';
import { Attention } from './attention.js';
import { whereItLies } from './mark-summary.js';
import type { Language } from './words/wording.js';

/** Where the page lies, with the warnings. */
export class PageTally implements Tally {
  readonly #attention: Attention;
  #page: Outcome | undefined;

  constructor(private readonly language: Language) {
    this.#attention = new Attention(language);
  }

  add(outcome: Outcome): void {
    this.#attention.add(outcome);
    if (outcome.status === 'written') this.#page = outcome;
  }

  text(): string {
    if (this.#page === undefined) return '';
    return `${[whereItLies(this.#page, this.language), ...this.#attention.warnings.lines(), '', cautionText(this.language)].join('\n')}\n`;
  }
}
