import type { Report } from '@handline/core';
import { InOrder } from '../jobs/in-order.js';
import type { Findings, Outcome } from '../outcome.js';

/** What became of one input, with the library's report on it where there is one. */
export interface FileReport extends Omit<Outcome, 'result'>, Partial<Report> {}

/** What `--json` prints: one entry for every input, in the order of the jobs. */
export interface RunReport {
  /** Version of the report's form, as of every entry's. */
  readonly version: string;
  readonly files: readonly FileReport[];
}

/** What the full report says of one file, or `review` of one score. */
export function jsonEntry({ result, ...outcome }: Outcome): FileReport & Pick<Findings, 'review'> {
  return {
    ...outcome,
    ...result?.report,
    ...(result?.review && { review: result.review }),
    ...(result && { warnings: result.warnings }),
  };
}

/** A `RunReport`, text by text. */
export class JsonReport {
  readonly #order = new InOrder<string>();
  #told = 0;

  /** @param version of the report's form */
  constructor(private readonly version: string) {}

  /** The text that can be written now. */
  add(place: number, outcome: Outcome): string {
    const entry = JSON.stringify(jsonEntry(outcome), null, 2).replaceAll('\n', '\n    ');
    let text = '';
    for (const next of this.#order.add(place, entry)) {
      text += `${this.#told === 0 ? this.#head() : ','}\n    ${next}`;
      this.#told += 1;
    }
    return text;
  }

  end(): string {
    return this.#told === 0 ? `${this.#head()}]\n}\n` : '\n  ]\n}\n';
  }

  #head(): string {
    return `{\n  "version": ${JSON.stringify(this.version)},\n  "files": [`;
  }
}
