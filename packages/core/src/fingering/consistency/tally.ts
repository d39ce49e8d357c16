import type { SliceView } from '../view/view.js';
import type { Figure } from './figures/figure.js';

/** How many slices of a figure have which fingers. They are few, so that two lists are quicker than a map. */
interface Count {
  /** As the `name`s of candidates. */
  readonly names: number[];
  readonly counts: number[];
  /** The greatest of the counts. */
  most: number;
}

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
  /** By figure. */
  readonly #tallies: readonly Count[];

  constructor(
    private readonly views: readonly SliceView[],
    private readonly figures: readonly Figure[],
  ) {
    const own: number[][] = [];
    for (let at = 0; at < views.length; at++) own.push([]);
    const prices: number[] = [];
    const tallies: Count[] = [];
    for (let nth = 0; nth < figures.length; nth++) {
      const { slices, price } = figures[nth]!;
      for (const at of slices) own[at]!.push(nth);
      prices.push(price);
      tallies.push({ names: [], counts: [], most: 0 });
    }
    this.#figures = own;
    this.#prices = prices;
    this.#tallies = tallies;
  }

  /** Whether all slices of a figure are there and have the same fingers. */
  isAlike(figure: number): boolean {
    return this.#tallies[figure]!.most === this.figures[figure]!.slices.length;
  }

  /** Adds the next slice with its candidate. */
  enter(at: number, candidate: number): void {
    const { name } = this.views[at]!.candidates[candidate]!;
    const own = this.#figures[at]!;
    for (let nth = 0; nth < own.length; nth++) {
      const tally = this.#tallies[own[nth]!]!;
      let place = tally.names.indexOf(name);
      if (place < 0) {
        place = tally.names.push(name) - 1;
        tally.counts.push(0);
      }
      const count = ++tally.counts[place]!;
      if (count > tally.most) tally.most = count;
      else this.paid += this.#prices[own[nth]!]!;
    }
  }

  /** Removes the slice added last. */
  leave(at: number, candidate: number): void {
    const { name } = this.views[at]!.candidates[candidate]!;
    const own = this.#figures[at]!;
    for (let nth = 0; nth < own.length; nth++) {
      const tally = this.#tallies[own[nth]!]!;
      const count = tally.counts[tally.names.indexOf(name)]!--;
      if (count === tally.most && !tally.counts.includes(count)) tally.most = count - 1;
      else this.paid -= this.#prices[own[nth]!]!;
    }
  }
}
