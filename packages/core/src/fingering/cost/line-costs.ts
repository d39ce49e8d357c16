import type { Surroundings } from '../view/surroundings.js';
import type { SliceView } from '../view/view.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import type { CostTable } from './slice-costs.js';

/**
 * The costs of a line without bias and extra costs, slice by slice, each worked out once for all searches of the line. The
 * arrays are not to be written to.
 */
export class LineCosts {
  /** Own costs of all slices; `#starts` tells where each one's begin, `#known` which are there. */
  readonly #own: Float64Array;
  readonly #starts: Uint32Array;
  readonly #known: Uint8Array;
  readonly #steps: Float64Array[] = [];
  readonly #chains: Float64Array[] = [];
  readonly #kernels: Float64Array[] = [];

  constructor(
    readonly views: readonly SliceView[],
    private readonly surroundings: readonly Surroundings[],
    private readonly costs: CostTable,
    private readonly grid: DepthGrid,
  ) {
    const count = views.length;
    this.#starts = new Uint32Array(count + 1);
    for (let at = 0; at < count; at++)
      this.#starts[at + 1] = this.#starts[at]! + views[at]!.candidates.length * DEPTH_COUNT;
    this.#own = new Float64Array(this.#starts[count]!);
    this.#known = new Uint8Array(count);
  }

  /** What candidates cost: `[ownStart(at) + candidate * DEPTH_COUNT + depth]`. */
  get own(): Float64Array {
    return this.#own;
  }

  /** Where in `own` a slice begins; once asked for, it is there. */
  ownStart(at: number): number {
    const start = this.#starts[at]!;
    if (!this.#known[at]) this.#workOut(at, start);
    return start;
  }

  #workOut(at: number, start: number): void {
    const view = this.views[at]!;
    for (let nth = 0; nth < view.candidates.length; nth++) {
      const { fingers } = view.candidates[nth]!;
      const first = start + nth * DEPTH_COUNT;
      const cost = this.costs.slice(view, fingers, this.surroundings[at]!);
      for (let depth = 0; depth < DEPTH_COUNT; depth++) this.#own[first + depth] = cost;
      this.grid.addDiscomfort(view, fingers, this.#own, first);
    }
    this.#known[at] = 1;
  }

  /** Steps into slice `at > 0` from the one before: `[candidate before * candidates + candidate]`. */
  steps(at: number): Float64Array {
    this.#steps[at] ??= this.costs.steps(this.views[at - 1]!, this.views[at]!);
    return this.#steps[at];
  }

  /** Chains that end in slice `at > 1`: `[(first * candidates of the second + second) * candidates + third]`. */
  chains(at: number): Float64Array {
    this.#chains[at] ??= this.costs.chains(this.views[at - 2]!, this.views[at - 1]!, this.views[at]!);
    return this.#chains[at];
  }

  /** Moves in depth into slice `at > 0`: `[from * DEPTH_COUNT + to]`. */
  kernel(at: number): Float64Array {
    this.#kernels[at] ??= this.grid.kernel(this.views[at]!);
    return this.#kernels[at];
  }
}
