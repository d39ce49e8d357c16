import type { SliceView } from '../view/view.js';
import type { Figure } from './figure.js';

/**
 * A lower bound on what a fingering pays for its inconsistencies, known from its first slices alone and kept up to date as
 * slices are added and removed: in every figure, all slices pay but those with the most frequent fingers.
 */
export class InconsistencyTally {
  /** The bound, mm equivalents. */
  paid = 0;
  /** By slice: the figures in whose middle it is. */
  readonly #figures: readonly (readonly number[])[];
  readonly #prices: readonly number[];
  /** By figure: how many slices have which fingers, by the `name` of candidates. */
  readonly #counts: readonly Map<number, number>[];
  readonly #most: number[];

  constructor(
    private readonly views: readonly SliceView[],
    private readonly figures: readonly Figure[],
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

  /** Whether all slices of a figure are there and have the same fingers. */
  isAlike(figure: number): boolean {
    return this.#most[figure] === this.figures[figure]!.slices.length;
  }

  /** Adds the next slice with its candidate. */
  enter(at: number, candidate: number): void {
    const { name } = this.views[at]!.candidates[candidate]!;
    for (const figure of this.#figures[at]!) {
      const count = (this.#counts[figure]!.get(name) ?? 0) + 1;
      this.#counts[figure]!.set(name, count);
      if (count > this.#most[figure]!) this.#most[figure] = count;
      else this.paid += this.#prices[figure]!;
    }
  }

  /** Removes the slice added last. */
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
