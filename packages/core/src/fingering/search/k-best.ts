import type { Objective } from '../cost/objective.js';
import { costsToGo } from './backward.js';
import { PrefixCosts } from './prefix.js';

/** Fingerings that begin like `base` up to slice `at` and take `candidate` there, and the least cost among them. */
interface Branch {
  readonly base: readonly number[];
  readonly at: number;
  readonly candidate: number;
  readonly cost: number;
}

/**
 * The `count` cheapest choices of candidates, cheapest first, each with its depths minimised; exact. Every fingering but
 * the first leaves an earlier one at some slice: the set of those that leave it there with one candidate is a branch,
 * whose least cost is known from the costs to go. The cheapest branch yields the next fingering and splits. Of equal
 * costs the branch found first comes first.
 */
export function cheapestPaths(objective: Objective, count: number): readonly (readonly number[])[] {
  const found: (readonly number[])[] = [];
  if (objective.views.length === 0 || count < 1) return found;
  const prefixes = new PrefixCosts(objective, costsToGo(objective));
  const branches: Branch[] = [];
  const enter = (branch: Branch): void => {
    if (branch.cost < Number.POSITIVE_INFINITY) insertByCost(branches, branch, count - found.length);
  };
  found.push(cheapest(objective, prefixes, [], enter));
  while (found.length < count) {
    const branch = branches.shift();
    if (!branch) break;
    const { base, at, candidate } = branch;
    found.push(cheapest(objective, prefixes, [...base.slice(0, at), candidate], enter));
  }
  return found;
}

/** Keeps the `most` cheapest of a list, cheapest first; of equal ones the earlier one comes first. */
export function insertByCost<T extends { readonly cost: number }>(list: T[], entry: T, most: number): void {
  let place = list.length;
  while (place > 0 && list[place - 1]!.cost > entry.cost) place--;
  if (place >= most) return;
  list.splice(place, 0, entry);
  list.length = Math.min(list.length, most);
}

/** The cheapest path with a given prefix; every candidate that it does not take after the prefix is a branch, which `addBranch` gets. */
function cheapest(
  { views }: Objective,
  prefixes: PrefixCosts,
  prefix: readonly number[],
  addBranch: (branch: Branch) => void,
): readonly number[] {
  const path = [...prefix];
  let depths = prefixes.through(prefix);
  for (let at = prefix.length; at < views.length; at++) {
    const continuations = views[at]!.candidates.map((_, candidate) => {
      const reached = prefixes.extend(path, at, candidate, depths);
      return { candidate, reached, cost: prefixes.least(path, at, candidate, reached) };
    });
    const best = continuations.reduce((least, own) => (own.cost < least.cost ? own : least));
    for (const { candidate, cost } of continuations) {
      if (candidate !== best.candidate) addBranch({ base: path, at, candidate, cost });
    }
    path.push(best.candidate);
    depths = best.reached;
  }
  return path;
}
