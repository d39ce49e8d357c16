import { DEPTH_COUNT } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';

interface Table {
  readonly own: Float64Array;
  readonly first: number;
  readonly bias: readonly number[] | undefined;
  readonly chains: Float64Array;
  readonly kernel?: Float64Array;
  readonly steps?: Float64Array;
}

/** Costs of prefixes, that is of fingerings of a line's first slices, and of the best whole fingerings that begin so. */
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
   * Least cost of a prefix that is one slice longer, ending with `candidate` at slice `at`, by depth of that slice.
   *
   * @param path the prefix so far
   * @param depths its least cost by depth of its last slice
   */
  extend(path: readonly number[], at: number, candidate: number, depths: Float64Array): Float64Array {
    const D = DEPTH_COUNT;
    const reached = new Float64Array(D);
    const { own, first: start, bias, kernel, steps, chains } = this.#table(at);
    const columns = this.objective.count(at);
    const first = path[at - 2] ?? 0;
    const before = path[at - 1] ?? 0;
    const added =
      (steps?.[before * columns + candidate] ?? 0) +
      chains[(first * this.objective.count(at - 1) + before) * columns + candidate]! +
      (bias?.[candidate] ?? 0);
    for (let to = 0; to < D; to++) {
      let best = kernel ? Number.POSITIVE_INFINITY : 0;
      if (kernel) {
        for (let from = 0; from < D; from++) best = Math.min(best, depths[from]! + kernel[from * D + to]!);
      }
      reached[to] = best + added + own[start + candidate * D + to]!;
    }
    return reached;
  }

  /** Least cost of a prefix, by depth of its last slice. */
  through(path: readonly number[]): Float64Array {
    return path.reduce<Float64Array>(
      (depths, candidate, at) => this.extend(path, at, candidate, depths),
      this.start,
    );
  }

  /**
   * Least cost of a whole fingering that begins like `path`, with `candidate` at slice `at`.
   *
   * @param reached what `extend` gives for it
   */
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
      own: objective.own(at),
      first: objective.ownStart(at),
      bias: objective.bias?.[at],
      chains: objective.chains(at),
      ...(at > 0 && { steps: objective.steps(at), kernel: objective.kernel(at) }),
    };
    return this.#tables[at];
  }
}
