import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import type { Outlook } from './terms/term.js';
import type { SliceView } from './view.js';

/** Extra cost of candidates by slice, mm equivalents; undefined where there is none. */
export type Bias = readonly (Float64Array | undefined)[];

/** Further costs of one slice that a term cannot see, such as those of a repeat's join. */
export interface Extra {
  /** `[candidate * DEPTH_COUNT + depth]` */
  readonly own?: Float64Array;
  /** `[candidate before * candidates + candidate]` */
  readonly steps?: Float64Array;
}

/** A named part of the cost that depends on more than neighbouring slices, such as an ornament or a repeat's join. */
export interface Further {
  readonly name: string;
  readonly extras: ReadonlyMap<number, Extra>;
}

/**
 * The stated cost, slice by slice: what a candidate costs at every depth, a step between two, a chain of three, and a
 * move in depth. Slices that are never played in a row (`view.cut`) have neither steps nor moves between them.
 */
export class Stages {
  constructor(
    readonly views: readonly SliceView[],
    private readonly around: readonly Outlook[],
    private readonly costs: CostTable,
    private readonly grid: DepthGrid,
    readonly bias?: Bias,
    readonly further: readonly Further[] = [],
  ) {}

  /** The slices from `start` up to `end`, as if they were the whole line; indices count from `start`. */
  section(start: number, end: number): Stages {
    const further = this.further.map(({ name, extras }) => ({
      name,
      extras: new Map([...extras].map(([at, extra]) => [at - start, extra])),
    }));
    return new Stages(
      this.views.slice(start, end),
      this.around.slice(start, end),
      this.costs,
      this.grid,
      this.bias?.slice(start, end),
      further,
    );
  }

  /** Number of candidates of a slice; 1 before the first. */
  count(at: number): number {
    return this.views[at]?.candidates.length ?? 1;
  }

  /** `[candidate * DEPTH_COUNT + depth]` */
  own(at: number): Float64Array {
    const view = this.views[at]!;
    const own = new Float64Array(view.candidates.length * DEPTH_COUNT);
    const bias = this.bias?.[at];
    const costs = this.costs.slices(view, this.around[at]!);
    for (let nth = 0; nth < costs.length; nth++) {
      const cost = costs[nth]! + (bias?.[nth] ?? 0);
      const start = nth * DEPTH_COUNT;
      for (let depth = 0; depth < DEPTH_COUNT; depth++) own[start + depth] = cost;
      this.grid.addDiscomfort(view, view.candidates[nth]!.fingers, own, start);
    }
    for (const { extras } of this.further) addTo(own, extras.get(at)?.own);
    return own;
  }

  /** Steps into slice `at > 0`: `[candidate before * count(at) + candidate]`. Not to be written to. */
  steps(at: number): Float64Array {
    const [before, view] = [this.views[at - 1]!, this.views[at]!];
    const steps = view.cut
      ? new Float64Array(this.count(at - 1) * this.count(at))
      : this.costs.steps(before, view);
    const more = this.further.flatMap(({ extras }) => extras.get(at)?.steps ?? []);
    if (more.length === 0) return steps;
    const sum = Float64Array.from(steps);
    for (const extra of more) addTo(sum, extra);
    return sum;
  }

  /**
   * Chains that end in slice `at`: `[(first * count(at - 1) + second) * count(at) + third]`, all 0 where there are no three
   * in a row. Not to be written to.
   */
  chains(at: number): Float64Array {
    const [first, second, third] = [this.views[at - 2], this.views[at - 1]!, this.views[at]!];
    if (first && !second.cut && !third.cut) return this.costs.chains(first, second, third);
    return new Float64Array(this.count(at - 2) * this.count(at - 1) * this.count(at));
  }

  /** Moves into slice `at > 0`: `[from * DEPTH_COUNT + to]`. */
  kernel(at: number): Float64Array {
    return this.views[at]!.cut ? NO_MOVES : this.grid.kernel(this.views[at]!);
  }
}

function addTo(costs: Float64Array, more: Float64Array | undefined): void {
  if (more) for (let cell = 0; cell < more.length; cell++) costs[cell]! += more[cell]!;
}

const NO_MOVES = new Float64Array(DEPTH_COUNT * DEPTH_COUNT);
