import type { Outcome } from '../outcome.js';

/** What the full report says of one file. */
export function jsonEntry({ result, ...outcome }: Outcome): object {
  return {
    ...outcome,
    ...(result === undefined ? {} : { warnings: result.warnings }),
    ...(result?.report === undefined ? {} : { lines: result.report.lines, caution: result.report.caution }),
  };
}

/** The full report of a run, text by text: one entry for every input, in the order of the jobs. */
export class JsonReport {
  /** Texts of files that were done before an earlier one. */
  readonly #waiting = new Map<number, string>();
  #next = 0;

  /** The text that can be written now. */
  add(place: number, outcome: Outcome): string {
    const entry = JSON.stringify(jsonEntry(outcome), null, 2).replaceAll('\n', '\n    ');
    this.#waiting.set(place, entry);
    let text = '';
    for (;;) {
      const next = this.#waiting.get(this.#next);
      if (next === undefined) return text;
      this.#waiting.delete(this.#next);
      text += `${this.#next === 0 ? '{\n  "files": [' : ','}\n    ${next}`;
      this.#next += 1;
    }
  }

  end(): string {
    return this.#next === 0 ? '{\n  "files": []\n}\n' : '\n  ]\n}\n';
  }
}
