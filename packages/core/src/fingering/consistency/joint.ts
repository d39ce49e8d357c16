import { insertByCost } from '../search/k-best.js';
import type { PrefixCosts } from '../search/prefix.js';
import type { SliceView } from '../view/view.js';
import { inconsistency } from './consensus.js';
import type { Figure } from './figures/figure.js';
import { InconsistencyTally } from './tally.js';

/** A prefix with one more candidate. */
interface Continuation {
  readonly candidate: number;
  /** Cost of the prefix by depth of its last slice, inconsistencies left out. */
  readonly reached: Float64Array;
  /** Lower bound on the cost of all fingerings with this prefix, inconsistencies included. */
  readonly bound: number;
}

/** The cheapest fingerings found, cheapest first, inconsistencies included; of equals the one found first. */
class Best {
  readonly #found: { readonly path: readonly number[]; readonly cost: number }[] = [];
  readonly #seen = new Set<string>();

  constructor(private readonly count: number) {}

  /** A further fingering must cost less than this. */
  get limit(): number {
    return this.#found.length < this.count ? Number.POSITIVE_INFINITY : this.#found.at(-1)!.cost;
  }

  get paths(): readonly (readonly number[])[] {
    return this.#found.map(({ path }) => path);
  }

  enter(path: readonly number[], cost: number): void {
    const name = path.join();
    if (cost >= this.limit || this.#seen.has(name)) return;
    this.#seen.add(name);
    insertByCost(this.#found, { path: [...path], cost }, this.count);
  }
}

/**
 * The `count` cheapest fingerings, inconsistencies included, cheapest first, by branch and bound: a prefix is followed as
 * long as its own cost, the least cost of everything after it and what its inconsistencies cost already add up to less
 * than the dearest fingering kept. Exact where no more than `most` prefixes are followed, else the cheapest seen by then.
 *
 * @param known fingerings to start from; the cheaper they are, the fewer prefixes are followed
 */
export function cheapestConsistent(
  views: readonly SliceView[],
  prefixes: PrefixCosts,
  figures: readonly Figure[],
  known: readonly (readonly number[])[],
  count: number,
  most: number,
): readonly (readonly number[])[] {
  const best = new Best(count);
  for (const path of known)
    best.enter(path, wholeCost(prefixes.through(path), inconsistency(views, figures, path)));
  const tally = new InconsistencyTally(views, figures);
  const path: number[] = [];
  const levels = views.length > 0 ? [continuationsOf(views, prefixes, tally, path, prefixes.start)] : [];
  for (let followed = 0; levels.length > 0 && followed < most; ) {
    if (path.length === levels.length) tally.leave(path.length - 1, path.pop()!);
    const next = levels.at(-1)!.shift();
    if (!next || next.bound >= best.limit) {
      levels.pop();
      continue;
    }
    followed++;
    tally.enter(path.length, next.candidate);
    path.push(next.candidate);
    if (path.length === views.length)
      best.enter(path, wholeCost(next.reached, inconsistency(views, figures, path)));
    else levels.push(continuationsOf(views, prefixes, tally, path, next.reached));
  }
  return best.paths;
}

/** @param reached cost of a fingering by depth of its last slice, inconsistencies left out */
function wholeCost(reached: Float64Array, inconsistencies: number): number {
  return Math.min(...reached) + inconsistencies;
}

/** The ways on from a prefix, those with the lowest bounds first. */
function continuationsOf(
  views: readonly SliceView[],
  prefixes: PrefixCosts,
  tally: InconsistencyTally,
  path: readonly number[],
  depths: Float64Array,
): Continuation[] {
  const at = path.length;
  const continuations: Continuation[] = [];
  for (let candidate = 0; candidate < views[at]!.candidates.length; candidate++) {
    const reached = prefixes.extend(path, at, candidate, depths);
    tally.enter(at, candidate);
    const bound = prefixes.least(path, at, candidate, reached) + tally.paid;
    tally.leave(at, candidate);
    continuations.push({ candidate, reached, bound });
  }
  return continuations.sort(byBound);
}

function byBound(one: Continuation, other: Continuation): number {
  return one.bound - other.bound;
}
