import type { Bias, Objective } from '../../fingering/cost/objective.js';
import { ExtraCostBuilder } from '../../fingering/repeats/extra-cost-builder.js';
import { costOf } from '../../fingering/repeats/settle.js';
import { sumOf } from '../../numeric/fixed-point.js';
import type { BySlice, Judged, OtherChoice } from './judged.js';

/** Slices on either side of a change over which the forearm may adapt; their fingers stay. Chains reach two. */
export const CONTEXT = 4;

/** Another fingering of some slices, all others as printed. */
export interface Alternative {
  /** Slices that may differ: from `from` up to `to`. */
  readonly from: number;
  readonly to: number;
  readonly choice: OtherChoice;
  /** mm by which the movement of the whole line is less than as printed; below 0 where it is more. */
  readonly saved: number;
}

/** What a choice has in some slices of a line, from `start` on. */
class Section implements BySlice {
  constructor(
    private readonly start: number,
    private readonly values: readonly number[],
  ) {}

  at(slice: number): number | undefined {
    return this.values[slice - this.start];
  }
}

/** A stretch of a line, with its surroundings held as printed, so that what changes inside costs the whole line as much. */
export class Window {
  readonly #start: number;
  /** The slices with their surroundings held, and what is printed in them. */
  readonly #section: Objective;
  readonly #held: { readonly path: readonly number[]; readonly depths: readonly number[] };
  readonly #printed: number;

  constructor(
    private readonly judged: Judged,
    readonly from: number,
    readonly to: number,
  ) {
    const { printed, objective, views } = judged;
    const [start, end] = [Math.max(0, from - CONTEXT), Math.min(views.length, to + CONTEXT)];
    this.#start = start;
    this.#held = { path: printed.path.slice(start, end), depths: printed.depths.slice(start, end) };
    const section = objective.section(start, end);
    const around = new ExtraCostBuilder(section.views, this.#held);
    for (let at = start; at < from; at++) around.holdFingers(at - start);
    for (let at = to; at < end; at++) around.holdFingers(at - start);
    if (start > 0) around.hold(0);
    if (end < views.length) around.hold(end - 1 - start);
    const surroundings = { name: 'surroundings', slices: around.slices };
    this.#section = section.with(undefined, [...section.extraCosts, surroundings]);
    this.#printed = costOf(this.#section, this.#held.path, this.#held.depths);
  }

  /**
   * The fingering of least movement, or, where digits have a price, of least movement and price together.
   *
   * @param price mm that a digit unlike the printed one costs
   */
  cheapest(price: number): Alternative {
    return this.#found(price > 0 ? this.#section.with(this.#prices(price)) : this.#section);
  }

  /** These candidates for the slices from `from` up to `to`, with the depths that suit them best. */
  with(path: BySlice): Alternative {
    const own = this.#held.path.map((printed, nth) => path.at(this.#start + nth) ?? printed);
    const held = new ExtraCostBuilder(this.#section.views, { path: own, depths: this.#held.depths });
    for (let at = this.from; at < this.to; at++) held.holdFingers(at - this.#start);
    const extra = { name: 'held', slices: held.slices };
    return this.#found(this.#section.with(undefined, [...this.#section.extraCosts, extra]));
  }

  /** What to search for the fingerings of least movement, the slices with their surroundings. */
  get section(): Objective {
    return this.#section;
  }

  /** What a choice has in the section, candidates or depths, at its place in the line. */
  placed(section: readonly number[]): BySlice {
    return new Section(this.#start, section);
  }

  #found(section: Objective): Alternative {
    const { path, depths, biased, cost } = this.judged.search.find(section);
    const choice = { path: this.placed(path), depths: this.placed(depths) };
    return { from: this.from, to: this.to, choice, saved: this.#printed - (cost - sumOf(biased)) };
  }

  #prices(price: number): Bias {
    const { views, digits } = this.judged;
    return this.#held.path.map((_, nth) => {
      const at = this.#start + nth;
      const own = digits[at]!;
      if (at < this.from || at >= this.to || own.every(isOpen)) return undefined;
      return views[at]!.candidates.map(({ fingers }) => {
        let changed = 0;
        for (let key = 0; key < own.length; key++)
          if (own[key] !== undefined && own[key] !== fingers[key]) changed++;
        return changed * price;
      });
    });
  }
}

function isOpen(digit: unknown): boolean {
  return digit === undefined;
}
