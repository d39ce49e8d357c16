import type { SliceView } from '../view/view.js';
import { DEPTH_COUNT } from './depth.js';
import type { ExtraCost, SliceExtraCost } from './extra-cost.js';
import type { LineCosts } from './line-costs.js';

/** What candidates cost on top, by slice and candidate, mm equivalents; undefined where nothing is added. */
export type Bias = readonly (readonly number[] | undefined)[];

/**
 * What the search minimises, slice by slice: what a candidate costs at every depth, a step from one slice to the next, a chain
 * of three slices, and a move in depth. Slices that are never played in a row (`view.cut`) have neither steps nor moves between them.
 */
export class Objective {
  readonly views: readonly SliceView[];

  /** @param range slices from its start up to its end, taken for the whole line; by default all */
  constructor(
    private readonly costs: LineCosts,
    readonly bias?: Bias,
    readonly extraCosts: readonly ExtraCost[] = [],
    private readonly range: readonly [start: number, end: number] = [0, costs.views.length],
  ) {
    this.views = costs.views.slice(...range);
  }

  /** The same line with another bias and other extra costs. */
  with(bias: Bias | undefined, extraCosts: readonly ExtraCost[] = this.extraCosts): Objective {
    return new Objective(this.costs, bias, extraCosts, this.range);
  }

  /** Whether another objective is this one but for its bias. */
  isButForBias({ costs, extraCosts, range }: Objective): boolean {
    return costs === this.costs && extraCosts === this.extraCosts && range === this.range;
  }

  /** Whether the candidates of a slice have the same bias in another objective of the line. */
  hasSameBias({ bias: other }: Objective, at: number): boolean {
    const own = this.bias?.[at];
    const others = other?.[at];
    if (own === others) return true;
    for (let candidate = 0; candidate < this.count(at); candidate++)
      if ((own?.[candidate] ?? 0) !== (others?.[candidate] ?? 0)) return false;
    return true;
  }

  /** The slices from `start` up to `end`, taken for the whole line; indices count from `start`. */
  section(start: number, end: number): Objective {
    const extraCosts = this.extraCosts.map(({ name, slices }) => {
      const own = new Map<number, SliceExtraCost>();
      for (let at = start; at < end; at++) {
        const extra = slices.get(at);
        if (extra) own.set(at - start, extra);
      }
      return { name, slices: own };
    });
    const first = this.range[0];
    return new Objective(this.costs, this.bias?.slice(start, end), extraCosts, [first + start, first + end]);
  }

  /** Number of candidates of a slice; 1 before the first. */
  count(at: number): number {
    return this.views[at]?.candidates.length ?? 1;
  }

  /**
   * What the candidates of a slice cost without their bias: `[ownStart(at) + candidate * DEPTH_COUNT + depth]`. Not to be
   * written to.
   */
  own(at: number): Float64Array {
    if (!this.#hasExtra(at)) return this.costs.own;
    const start = this.costs.ownStart(this.range[0] + at);
    let own = this.costs.own.subarray(start, start + this.count(at) * DEPTH_COUNT);
    for (const { slices } of this.extraCosts) own = this.#sum(own, slices.get(at)?.own);
    return own;
  }

  ownStart(at: number): number {
    return this.#hasExtra(at) ? 0 : this.costs.ownStart(this.range[0] + at);
  }

  #hasExtra(at: number): boolean {
    for (const { slices } of this.extraCosts) if (slices.get(at)?.own) return true;
    return false;
  }

  /** Steps into slice `at > 0`: `[candidate before * count(at) + candidate]`. Not to be written to. */
  steps(at: number): Float64Array {
    let steps = this.views[at]!.cut
      ? new Float64Array(this.count(at - 1) * this.count(at))
      : this.costs.steps(this.range[0] + at);
    for (const { slices } of this.extraCosts) steps = this.#sum(steps, slices.get(at)?.steps);
    return steps;
  }

  /**
   * Chains that end in slice `at`: `[(first * count(at - 1) + second) * count(at) + third]`, all 0 where there are no three
   * in a row. Not to be written to.
   */
  chains(at: number): Float64Array {
    const inARow = at > 1 && !this.views[at - 1]!.cut && !this.views[at]!.cut;
    if (inARow) return this.costs.chains(this.range[0] + at);
    return new Float64Array(this.count(at - 2) * this.count(at - 1) * this.count(at));
  }

  /** Moves into slice `at > 0`: `[from * DEPTH_COUNT + to]`. Not to be written to. */
  kernel(at: number): Float64Array {
    return this.views[at]!.cut ? NO_MOVES : this.costs.kernel(this.range[0] + at);
  }

  #sum(costs: Float64Array, more: Float64Array | undefined): Float64Array {
    if (!more) return costs;
    const sum = costs.slice();
    for (let cell = 0; cell < sum.length; cell++) sum[cell]! += more[cell]!;
    return sum;
  }
}

const NO_MOVES = new Float64Array(DEPTH_COUNT * DEPTH_COUNT);
