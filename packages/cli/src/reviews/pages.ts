import {
  type ReviewedScore,
  type ReviewOptions,
  reviewMarkdown,
  reviewsTable,
  reviewText,
} from '@handline/core';
import { InOrder } from '../jobs/in-order.js';
import type { Outcome } from '../outcome.js';
import { oneLine } from '../output/line.js';

/** What became of one score. */
export interface ReviewEntry {
  readonly input: string;
  /** Absent where it could not be reviewed, or an earlier run has told of it. */
  readonly review?: NonNullable<NonNullable<Outcome['result']>['review']>;
  readonly error?: NonNullable<Outcome['error']>;
}

/** What of a review the table of several scores tells. */
export type ReviewRow = ReviewedScore['review'];

export interface PagesChoice {
  readonly form: 'text' | 'markdown' | 'json';
  /** All findings, not only a screenful. */
  readonly all: boolean;
  readonly language: NonNullable<ReviewOptions['language']>;
}

/** Reviews as they are printed, one after the other. Of each no more is kept than its row in the table at the end. */
export class ReviewPages {
  readonly #order = new InOrder<ReviewEntry>();
  readonly #rows: ReviewedScore[] = [];
  #told = 0;

  constructor(private readonly choice: PagesChoice) {}

  /** The text that can be printed now. @param row of a score that an earlier run has told of */
  add(place: number, entry: ReviewEntry, row: ReviewRow | undefined = entry.review): string {
    // Also of those that are done before an earlier one, and in the order of the scores.
    if (row) {
      const { digits, levels, mm } = row;
      this.#rows[place] = { title: oneLine(entry.input), review: { digits, levels, mm } };
    }
    return this.#order
      .add(place, entry)
      .map((own) => this.#page(own))
      .join('');
  }

  /** The end: of several scores their table, worst first. */
  end(): string {
    const { form, language } = this.choice;
    if (form === 'json') return this.#told === 0 ? '{\n  "files": []\n}\n' : '\n  ]\n}\n';
    const rows = this.#rows.filter((row) => row !== undefined);
    if (rows.length < 2) return '';
    return this.#after(reviewsTable(rows, language, form));
  }

  #page(entry: ReviewEntry): string {
    const { form, all } = this.choice;
    if (form === 'json') {
      const text = JSON.stringify(entry, null, 2).replaceAll('\n', '\n    ');
      this.#told += 1;
      return `${this.#told === 1 ? '{\n  "files": [' : ','}\n    ${text}`;
    }
    const { review } = entry;
    if (!review) return '';
    const title = oneLine(entry.input);
    return this.#after(
      form === 'markdown' ? reviewMarkdown(review, { title }) : reviewText(review, { title, all }),
    );
  }

  #after(text: string): string {
    this.#told += 1;
    return this.#told === 1 ? text : `\n${text}`;
  }
}
