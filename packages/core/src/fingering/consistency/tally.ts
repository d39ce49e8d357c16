import type { SliceView } from '../view/view.js';
import type { Figure } from './figures.js';

/**
 * What the beginning of a fingering pays at least for being unlike itself, kept up slice by slice: in every figure all
 * fingers but the most frequent pay.
 */
export class InconsistencyTally {
  /** mm equivalents. */
  paid = 0;
  /** By slice: the figures in whose middle it is. */
  readonly #figures: readonly (readonly number[])[];
  readonly #prices: readonly number[];
  /** By figure: how often every finger name came. */
  readonly #counts: readonly Map<number, number>[];
  readonly #most: number[];

  constructor(
    private readonly views: readonly SliceView[],
    figures: readonly Figure[],
  ) {
    const own = views.map((): number[] => []);
    figures.forEach(({ slices }, nth) => {
      for (const at of slices) own[at]!.push(nth);
    });
    this.#figures = own;
    this.#prices = figures.map(({ price }) => price);
    this.#counts = figures.map(() => new Map());
    this.#most = figures.map(() => 0);
  }

  /** Takes a slice's candidate in. */
  enter(at: number, candidate: number): void {
    const { name } = this.views[at]!.candidates[candidate]!;
    for (const figure of this.#figures[at]!) {
      const count = (this.#counts[figure]!.get(name) ?? 0) + 1;
      this.#counts[figure]!.set(name, count);
      if (count > this.#most[figure]!) this.#most[figure] = count;
      else this.paid += this.#prices[figure]!;
    }
  }

  /** Takes it back; of the slices entered, the last goes first. */
  leave(at: number, candidate: number): void {
    const { name } = this.views[at]!.candidates[candidate]!;
    for (const figure of this.#figures[at]!) {
      const counts = this.#counts[figure]!;
      const count = counts.get(name)!;
      counts.set(name, count - 1);
      const most = this.#most[figure]!;
      if (count === most && ![...counts.values()].includes(most)) this.#most[figure] = most - 1;
      else this.paid -= this.#prices[figure]!;
    }
  }
}
