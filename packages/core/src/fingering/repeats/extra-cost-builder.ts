import type { Choice } from '../cost/choice.js';
import { DEPTH_COUNT } from '../cost/depth.js';
import type { SliceExtraCost } from '../cost/extra-cost.js';
import type { SliceView } from '../view/view.js';

const D = DEPTH_COUNT;

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** Builds the extra costs of a line: adds costs to slices and steps, and pins slices to the candidates of a choice. */
export class ExtraCostBuilder {
  readonly slices = new Map<number, Mutable<SliceExtraCost>>();

  /** @param choice what `hold` and `holdFingers` pin slices to */
  constructor(
    readonly views: readonly SliceView[],
    readonly choice: Pick<Choice, 'path' | 'depths'>,
  ) {}

  /** The extra costs of a slice itself, to be added to: `[candidate * DEPTH_COUNT + depth]`. */
  own(at: number): Float64Array {
    const extra = this.#at(at);
    extra.own ??= new Float64Array(this.#count(at) * D);
    return extra.own;
  }

  /** The extra costs of the steps into slice `at > 0`, to be added to: `[candidate before * candidates + candidate]`. */
  steps(at: number): Float64Array {
    const extra = this.#at(at);
    extra.steps ??= new Float64Array(this.#count(at - 1) * this.#count(at));
    return extra.steps;
  }

  /** Forbids all but the chosen candidate. */
  holdFingers(at: number): void {
    const [own, first] = [this.own(at), this.choice.path[at]! * D];
    for (let cell = 0; cell < own.length; cell++)
      if (cell < first || cell >= first + D) own[cell] = Number.POSITIVE_INFINITY;
  }

  /** Forbids all but the chosen candidate at the chosen depth. */
  hold(at: number): void {
    const [own, chosen] = [this.own(at), this.choice.path[at]! * D + this.choice.depths[at]!];
    for (let cell = 0; cell < own.length; cell++) if (cell !== chosen) own[cell] = Number.POSITIVE_INFINITY;
  }

  /** The extra cost of the choice itself, mm equivalents. */
  paid(): number {
    const { path, depths } = this.choice;
    let sum = 0;
    for (const [at, { own, steps }] of this.slices) {
      if (own) sum += own[path[at]! * D + depths[at]!]!;
      if (steps) sum += steps[path[at - 1]! * this.#count(at) + path[at]!]!;
    }
    return sum;
  }

  #at(at: number): Mutable<SliceExtraCost> {
    const extra = this.slices.get(at) ?? {};
    this.slices.set(at, extra);
    return extra;
  }

  #count(at: number): number {
    return this.views[at]!.candidates.length;
  }
}
