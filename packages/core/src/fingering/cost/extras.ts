import type { Choice } from '../search/forward.js';
import type { SliceView } from '../view/view.js';
import { DEPTH_COUNT } from './depth.js';

const D = DEPTH_COUNT;

/** Extra costs on top of a line's stages, added up slice by slice, and what is held as a choice has it. */
export class Extras {
  readonly extras = new Map<number, { own?: Float64Array; steps?: Float64Array }>();

  /** @param choice that holds where something is held */
  constructor(
    readonly views: readonly SliceView[],
    readonly choice: Pick<Choice, 'path' | 'depths'>,
  ) {}

  /** Own costs of a slice to be added to: `[candidate * DEPTH_COUNT + depth]`. */
  own(at: number): Float64Array {
    const extra = this.#at(at);
    extra.own ??= new Float64Array(this.#count(at) * D);
    return extra.own;
  }

  /** Costs of steps into slice `at > 0` to be added to: `[candidate before * candidates + candidate]`. */
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

  /** What the choice pays of all extras. */
  paid(): number {
    const { path, depths } = this.choice;
    let sum = 0;
    for (const [at, { own, steps }] of this.extras) {
      if (own) sum += own[path[at]! * D + depths[at]!]!;
      if (steps) sum += steps[path[at - 1]! * this.#count(at) + path[at]!]!;
    }
    return sum;
  }

  #at(at: number): { own?: Float64Array; steps?: Float64Array } {
    const extra = this.extras.get(at) ?? {};
    this.extras.set(at, extra);
    return extra;
  }

  #count(at: number): number {
    return this.views[at]!.candidates.length;
  }
}
