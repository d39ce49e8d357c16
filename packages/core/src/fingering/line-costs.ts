import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import { numbers } from './slab.js';
import type { Outlook } from './terms/term.js';
import type { SliceView } from './view.js';

/**
 * The costs of a line that no bias and no further cost changes, slice by slice, each worked out once for all the passes of
 * the search. Not to be written to.
 */
export class LineCosts {
  readonly #slab = numbers();
  readonly #own: Float64Array[] = [];
  readonly #steps: Float64Array[] = [];
  readonly #chains: Float64Array[] = [];
  readonly #kernels: Float64Array[] = [];

  constructor(
    readonly views: readonly SliceView[],
    private readonly around: readonly Outlook[],
    private readonly costs: CostTable,
    private readonly grid: DepthGrid,
  ) {}

  /** `[candidate * DEPTH_COUNT + depth]` */
  own(at: number): Float64Array {
    const known = this.#own[at];
    if (known) return known;
    const view = this.views[at]!;
    const own = this.#slab.take(view.candidates.length * DEPTH_COUNT);
    view.candidates.forEach(({ fingers }, nth) => {
      const start = nth * DEPTH_COUNT;
      own.fill(this.costs.slice(view, fingers, this.around[at]!), start, start + DEPTH_COUNT);
      this.grid.addDiscomfort(view, fingers, own, start);
    });
    this.#own[at] = own;
    return own;
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
