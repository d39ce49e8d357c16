import { costsToGo } from './alternatives-to-go.js';
import { DEPTH_COUNT } from './depth.js';
import type { Stages } from './stages.js';

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
  const walk = new Walk(stages);
  const branches: Branch[] = [];
  const enter = (branch: Branch): void => {
    if (branch.cost === Number.POSITIVE_INFINITY) return;
    let place = branches.length;
    while (place > 0 && branches[place - 1]!.cost > branch.cost) place--;
    if (place >= count - found.length) return;
    branches.splice(place, 0, branch);
    branches.length = Math.min(branches.length, count - found.length);
  };
  found.push(walk.cheapest([], enter));
  while (found.length < count) {
    const branch = branches.shift();
    if (!branch) break;
    const { base, at, candidate } = branch;
    found.push(walk.cheapest([...base.slice(0, at), candidate], enter));
  }
  return found;
}

class Walk {
  readonly #toGo: readonly Float64Array[];
  readonly #tables: readonly { own: Float64Array; steps?: Float64Array; chains?: Float64Array }[];

  constructor(private readonly stages: Stages) {
    this.#toGo = costsToGo(stages);
    this.#tables = stages.views.map((_, at) => ({
      own: stages.own(at),
      ...(at > 0 && { steps: stages.steps(at) }),
      ...(at > 1 && { chains: stages.chains(at) }),
    }));
  }

  /** The cheapest path with a given beginning; every other way to go on after that is told as a branch. */
  cheapest(beginning: readonly number[], tell: (branch: Branch) => void): readonly number[] {
    const path = [...beginning];
    let depths = new Float64Array(DEPTH_COUNT);
    for (let at = 0; at < this.stages.views.length; at++) {
      const given = beginning[at];
      if (given !== undefined) {
        depths = this.#extend(path, at, given, depths);
        continue;
      }
      const ways = this.stages.views[at]!.candidates.map((_, candidate) => {
        const reached = this.#extend(path, at, candidate, depths);
        return { candidate, reached, cost: this.#least(path, at, candidate, reached) };
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

  /** Least cost of the path so far and `candidate`, by depth of that slice. */
  #extend(
    path: readonly number[],
    at: number,
    candidate: number,
    depths: Float64Array,
  ): Float64Array<ArrayBuffer> {
    const { own, steps, chains } = this.#tables[at]!;
    const columns = this.stages.count(at);
    const [first, before] = [path[at - 2] ?? 0, path[at - 1] ?? 0];
    const added =
      (steps?.[before * columns + candidate] ?? 0) +
      (chains?.[(first * this.stages.count(at - 1) + before) * columns + candidate] ?? 0);
    const kernel = at > 0 ? this.stages.kernel(at) : undefined;
    return Float64Array.from({ length: DEPTH_COUNT }, (_, to) => {
      let best = kernel ? Number.POSITIVE_INFINITY : 0;
      if (kernel) {
        for (let from = 0; from < DEPTH_COUNT; from++) {
          best = Math.min(best, depths[from]! + kernel[from * DEPTH_COUNT + to]!);
        }
      }
      return best + added + own[candidate * DEPTH_COUNT + to]!;
    });
  }

  #least(path: readonly number[], at: number, candidate: number, reached: Float64Array): number {
    const state = ((path[at - 1] ?? 0) * this.stages.count(at) + candidate) * DEPTH_COUNT;
    const toGo = this.#toGo[at]!;
    let best = Number.POSITIVE_INFINITY;
    for (let d = 0; d < DEPTH_COUNT; d++) best = Math.min(best, reached[d]! + toGo[state + d]!);
    return best;
  }
}
