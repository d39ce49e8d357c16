import type { Bias } from '../cost/objective.js';
import type { SliceView } from '../view/view.js';
import type { Figure } from './figures/figure.js';

/** A slice with a digit that the file gives has so many votes, any other one vote. */
const GIVEN_VOTES = 100;

/** By figure: the fingers that all its slices should have, as the `name` of a candidate. */
export type Consensus = readonly number[];

/** The consensus of a fingering: what most slices of each figure have in it, by votes; of equals, what comes first. */
export function consensusOf(
  views: readonly SliceView[],
  figures: readonly Figure[],
  path: readonly number[],
): Consensus {
  const votes = new Ballot();
  const consensus: number[] = [];
  for (const { slices } of figures) {
    votes.begin();
    for (const at of slices) votes.add(fingersAt(views[at]!, path[at]!), votesOf(views[at]!));
    consensus.push(votes.winner());
  }
  return consensus;
}

/**
 * The fingers that cost each figure's slices least together, where every slice has them or pays the price of deviating.
 *
 * @param through for every slice and candidate, the cost of the best fingering of the whole line that uses it; it need
 *   be right only up to the least cost plus the greatest price
 */
export function cheapestConsensus(
  views: readonly SliceView[],
  figures: readonly Figure[],
  through: readonly (readonly number[])[],
): Consensus {
  const least = through.map(leastOf);
  const saved = new Ballot();
  const consensus: number[] = [];
  for (const { slices, price } of figures) {
    saved.begin();
    for (const at of slices) {
      const costs = through[at]!;
      const { candidates } = views[at]!;
      const enough = least[at]! + price;
      const votes = votesOf(views[at]!);
      for (let nth = 0; nth < costs.length; nth++) {
        saved.add(candidates[nth]!.name, Math.max(0, enough - costs[nth]!) * votes);
      }
    }
    consensus.push(saved.winner());
  }
  return consensus;
}

function leastOf(costs: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < costs.length; at++) least = Math.min(least, costs[at]!);
  return least;
}

function votesOf({ given }: SliceView): number {
  return given ? GIVEN_VOTES : 1;
}

/** Sums by name. The names are few, so that two lists are quicker than a map. */
class Ballot {
  readonly #names: number[] = [];
  readonly #sums: number[] = [];

  begin(): void {
    this.#names.length = 0;
    this.#sums.length = 0;
  }

  add(name: number, value: number): void {
    const at = this.#names.indexOf(name);
    if (at >= 0) this.#sums[at]! += value;
    else {
      this.#names.push(name);
      this.#sums.push(value);
    }
  }

  /** The name of the greatest sum, of equal ones the first. */
  winner(): number {
    let best = 0;
    for (let at = 1; at < this.#sums.length; at++) if (this.#sums[at]! > this.#sums[best]!) best = at;
    return this.#names[best]!;
  }
}

/** What every candidate pays for deviating from the consensus of its figures; undefined where a slice is in none. */
export function consistencyBias(
  views: readonly SliceView[],
  figures: readonly Figure[],
  consensus: Consensus,
): Bias {
  const bias = new Array<number[] | undefined>(views.length);
  for (let nth = 0; nth < figures.length; nth++) {
    const { slices, price } = figures[nth]!;
    const agreed = consensus[nth]!;
    for (const at of slices) {
      const { candidates } = views[at]!;
      let own = bias[at];
      if (!own) {
        own = new Array<number>(candidates.length).fill(0);
        bias[at] = own;
      }
      for (let candidate = 0; candidate < candidates.length; candidate++) {
        if (candidates[candidate]!.name !== agreed) own[candidate]! += price;
      }
    }
  }
  return bias;
}

/**
 * What a fingering pays for deviating from its own consensus, mm equivalents.
 *
 * @param consensus `consensusOf` this path
 */
export function inconsistency(
  views: readonly SliceView[],
  figures: readonly Figure[],
  path: readonly number[],
  consensus: Consensus = consensusOf(views, figures, path),
): number {
  let sum = 0;
  for (let nth = 0; nth < figures.length; nth++) {
    const { slices, price } = figures[nth]!;
    for (const at of slices) if (fingersAt(views[at]!, path[at]!) !== consensus[nth]) sum += price;
  }
  return sum;
}

function fingersAt(view: SliceView, choice: number): number {
  return view.candidates[choice]!.name;
}
