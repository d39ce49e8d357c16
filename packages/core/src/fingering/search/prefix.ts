import { DEPTH_COUNT } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';

interface Table {
  readonly own: Float64Array;
  readonly chains: Float64Array;
  readonly kernel?: Float64Array;
  readonly steps?: Float64Array;
}

/** Fingerings followed slice by slice, with the least cost of everything after each known beforehand. */
export class PrefixCosts {
  readonly #tables: Table[] = [];
  /** Costs by depth before the first slice. */
  readonly start = new Float64Array(DEPTH_COUNT);

  /** @param toGo `costsToGo` of the objective */
  constructor(
    private readonly objective: Objective,
    private readonly toGo: readonly Float64Array[],
  ) {}

  /**
   * Least cost of the path up to slice `at` with `candidate` there, by depth of that slice.
   *
   * @param depths the same of the slice before
   */
  extend(path: readonly number[], at: number, candidate: number, depths: Float64Array): Float64Array {
    const D = DEPTH_COUNT;
    const reached = new Float64Array(D);
    const { own, kernel, steps, chains } = this.#table(at);
    const columns = this.objective.count(at);
    const [first, before] = [path[at - 2] ?? 0, path[at - 1] ?? 0];
    const added =
      (steps?.[before * columns + candidate] ?? 0) +
      chains[(first * this.objective.count(at - 1) + before) * columns + candidate]!;
    for (let to = 0; to < D; to++) {
      let best = kernel ? Number.POSITIVE_INFINITY : 0;
      if (kernel) {
        for (let from = 0; from < D; from++) best = Math.min(best, depths[from]! + kernel[from * D + to]!);
      }
      reached[to] = best + added + own[candidate * D + to]!;
    }
    return reached;
  }

  /** Least cost of a whole path, by depth of the last slice. */
  through(path: readonly number[]): Float64Array {
    return path.reduce<Float64Array>(
      (depths, candidate, at) => this.extend(path, at, candidate, depths),
      this.start,
    );
  }

  /** Least cost of a whole fingering that begins like `path` up to slice `at`, with `candidate` there. */
  least(path: readonly number[], at: number, candidate: number, reached: Float64Array): number {
    const state = ((path[at - 1] ?? 0) * this.objective.count(at) + candidate) * DEPTH_COUNT;
    const toGo = this.toGo[at]!;
    let best = Number.POSITIVE_INFINITY;
    for (let d = 0; d < DEPTH_COUNT; d++) best = Math.min(best, reached[d]! + toGo[state + d]!);
    return best;
  }

  #table(at: number): Table {
    const { objective } = this;
    this.#tables[at] ??= {
      own: objective.own(at).slice(),
      chains: objective.chains(at),
      ...(at > 0 && { steps: objective.steps(at), kernel: objective.kernel(at) }),
    };
    return this.#tables[at];
  }
}
