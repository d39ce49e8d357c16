import { type Warning, type WarningCode, warningText } from '@handline/core';
import type { Outcome } from '../outcome.js';
import { oneLine } from './line.js';
import { counted, fill, type Language, SUMMARY_WORDS } from './words/wording.js';

/** Warnings shown of one kind, and in all, before the rest is only counted. */
const SHOWN_OF_A_KIND = 2;
const SHOWN_IN_ALL = 6;

interface Kind {
  count: number;
  readonly first: { readonly warning: Warning; readonly input: string }[];
}

/** Warnings of one or more files by kind: how many, and the first few. */
export class WarningTally {
  readonly #kinds = new Map<WarningCode, Kind>();
  #files = 0;
  #scores = 0;

  constructor(
    private readonly language: Language,
    private readonly reported: boolean,
  ) {}

  add({ input, result }: Outcome): void {
    this.#files += 1;
    const warnings = result?.warnings ?? [];
    if (warnings.length > 0) this.#scores += 1;
    for (const warning of warnings) {
      const kind = this.#kinds.get(warning.code) ?? { count: 0, first: [] };
      this.#kinds.set(warning.code, kind);
      kind.count += 1;
      if (kind.first.length < SHOWN_OF_A_KIND) kind.first.push({ warning, input });
    }
  }

  count(code: WarningCode): number {
    return this.#kinds.get(code)?.count ?? 0;
  }

  /** The first few of each kind as lines, the rest as a number. */
  lines(): string[] {
    if (this.#kinds.size === 0) return [];
    const lines: string[] = [];
    let shown = 0;
    for (const [code, { count, first }] of this.#kinds) {
      const room = Math.min(SHOWN_IN_ALL - shown, first.length);
      shown += room;
      for (const { warning, input } of first.slice(0, room)) {
        lines.push(`  ${oneLine(this.#placed(warning, this.#files > 1 ? input : undefined))} (${code})`);
      }
      const more = fill(SUMMARY_WORDS[this.language].more, { count: count - room });
      if (count > room) lines.push(`  ${more} (${code})`);
    }
    return [this.#heading(shown), ...lines];
  }

  /** It says how to see all where some are left out, and where no report has them. */
  #heading(shown: number): string {
    const all = [...this.#kinds.values()].reduce((sum, { count }) => sum + count, 0);
    const words = SUMMARY_WORDS[this.language];
    const isComplete = this.reported || shown === all;
    const advice = isComplete ? '' : this.#files === 1 ? words.allWithJson : words.allWithReport;
    if (this.#files === 1) return fill(words.warnings, { count: all, advice });
    const kinds = [...this.#kinds].map(([code, { count }]) => `${count} ${code}`).join(', ');
    return counted(words.warningsIn, this.#scores, { all, kinds, advice });
  }

  /** With the file's name where there are several, without it where the summary has named it. */
  #placed({ message, place }: Warning, file: string | undefined): string {
    const { file: _, ...rest } = place;
    return warningText({ message, place: file === undefined ? rest : { ...rest, file } }, this.language);
  }
}
