import type { Stages } from '../cost/objective.js';
import { costsToGo } from './backward.js';
import { Walk } from './prefix.js';

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
export function cheapestPaths(stages: Stages, count: number): readonly (readonly number[])[] {
  const found: (readonly number[])[] = [];
  if (stages.views.length === 0 || count < 1) return found;
  const walk = new Walk(stages, costsToGo(stages));
  const branches: Branch[] = [];
  const enter = (branch: Branch): void => {
    if (branch.cost < Number.POSITIVE_INFINITY) insertByCost(branches, branch, count - found.length);
  };
  found.push(cheapest(stages, walk, [], enter));
  while (found.length < count) {
    const branch = branches.shift();
    if (!branch) break;
    const { base, at, candidate } = branch;
    found.push(cheapest(stages, walk, [...base.slice(0, at), candidate], enter));
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

/** The cheapest path with a given beginning; every other way to go on after that is told as a branch. */
function cheapest(
  { views }: Stages,
  walk: Walk,
  beginning: readonly number[],
  tell: (branch: Branch) => void,
): readonly number[] {
  const path = [...beginning];
  let depths = walk.through(beginning);
  for (let at = beginning.length; at < views.length; at++) {
    const ways = views[at]!.candidates.map((_, candidate) => {
      const reached = walk.extend(path, at, candidate, depths);
      return { candidate, reached, cost: walk.least(path, at, candidate, reached) };
    });
    const best = ways.reduce((least, way) => (way.cost < least.cost ? way : least));
    for (const { candidate, cost } of ways) {
      if (candidate !== best.candidate) tell({ base: path, at, candidate, cost });
    }
    path.push(best.candidate);
    depths = best.reached;
  }
  return path;
}
