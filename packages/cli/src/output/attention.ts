import type { Outcome } from '../outcome.js';
import { oneLine } from './line.js';
import { WarningTally } from './warnings.js';

const SHOWN = 4;

/** What somebody must look at after a run: files that were not done, and warnings. */
export class Attention {
  readonly warnings = new WarningTally();
  readonly #counts = { refused: 0, unwritten: 0, defect: 0 };
  readonly #first: string[] = [];

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
    const named = (count: number, name: string) => (count === 0 ? [] : [`${count} ${name}`]);
    const counts = [
      ...named(refused, 'refused'),
      ...named(unwritten, 'not written'),
      ...named(defect, all === 1 ? 'defect of Handline' : 'defects of Handline'),
    ];
    const more = all > this.#first.length ? [`  ... and ${all - this.#first.length} more`] : [];
    return [`Not done (${counts.join(', ')}):`, ...this.#first, ...more, ...this.warnings.lines()];
  }
}
