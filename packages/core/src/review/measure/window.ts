import type { Choice } from '../../fingering/cost/choice.js';
import type { Bias, Objective } from '../../fingering/cost/objective.js';
import { ExtraCostBuilder } from '../../fingering/repeats/extra-cost-builder.js';
import { costOf } from '../../fingering/repeats/settle.js';
import { sumOf } from '../../numeric/fixed-point.js';
import type { Judged } from './judged.js';

/** Slices on either side of a change over which the forearm may adapt; their fingers stay. Chains reach two. */
export const CONTEXT = 4;

/** Another fingering of some slices, all others as printed. */
export interface Alternative {
  /** Slices that may differ: from `from` up to `to`. */
  readonly from: number;
  readonly to: number;
  /** Candidates and depths by slice of the line; holes stand for what is printed. */
  readonly choice: Pick<Choice, 'path' | 'depths'>;
  /** mm by which the movement of the whole line is less than as printed; below 0 where it is more. */
  readonly saved: number;
}

/** A stretch of a line, with its surroundings held as printed, so that what changes inside costs the whole line as much. */
export class Window {
  readonly #start: number;
  readonly #end: number;
  readonly #printed: number;

  constructor(
    private readonly judged: Judged,
    readonly from: number,
    readonly to: number,
  ) {
    this.#start = Math.max(0, from - CONTEXT);
    this.#end = Math.min(judged.views.length, to + CONTEXT);
    const { path, depths } = judged.printed;
    const section = judged.objective.section(this.#start, this.#end);
    this.#printed = costOf(section, path.slice(this.#start, this.#end), depths.slice(this.#start, this.#end));
  }

  /**
   * The fingering of least movement, or, where digits have a price, of least movement and price together.
   *
   * @param price mm that a digit unlike the printed one costs
   */
  cheapest(price: number): Alternative {
    return this.#found(this.sectionOf(price > 0 ? this.#prices(price) : undefined));
  }

  /** These candidates for the slices from `from` up to `to`, with the depths that suit them best. */
  with(path: readonly number[]): Alternative {
    const held = new ExtraCostBuilder(this.judged.views, { path, depths: this.judged.printed.depths });
    for (let at = this.from; at < this.to; at++) held.holdFingers(at);
    return this.#found(this.sectionOf(undefined, held));
  }

  /** What to search here: the slices with their surroundings held. */
  sectionOf(
    bias: Bias | undefined,
    held = new ExtraCostBuilder(this.judged.views, this.judged.printed),
  ): Objective {
    const { objective, views, printed } = this.judged;
    const around = new ExtraCostBuilder(views, printed);
    for (let at = this.#start; at < this.from; at++) around.holdFingers(at);
    for (let at = this.to; at < this.#end; at++) around.holdFingers(at);
    if (this.#start > 0) around.hold(this.#start);
    if (this.#end < views.length) around.hold(this.#end - 1);
    return objective
      .with(bias, [
        ...objective.extraCosts,
        { name: 'surroundings', slices: around.slices },
        { name: 'held', slices: held.slices },
      ])
      .section(this.#start, this.#end);
  }

  /** What a choice has in the section, candidates or depths, at its place in the line; the rest is left out: it is as printed. */
  whole(section: readonly number[]): readonly number[] {
    const own: number[] = [];
    for (let nth = 0; nth < section.length; nth++) own[this.#start + nth] = section[nth]!;
    return own;
  }

  #found(section: Objective): Alternative {
    const { path, depths, biased, cost } = this.judged.search.find(section);
    const choice = { path: this.whole(path), depths: this.whole(depths) };
    return { from: this.from, to: this.to, choice, saved: this.#printed - (cost - sumOf(biased)) };
  }

  #prices(price: number): Bias {
    const { views, digits } = this.judged;
    const bias: (readonly number[] | undefined)[] = new Array(views.length);
    for (let at = this.from; at < this.to; at++) {
      const own = digits[at]!;
      if (own.every(isOpen)) continue;
      bias[at] = views[at]!.candidates.map(({ fingers }) => {
        let changed = 0;
        for (let nth = 0; nth < own.length; nth++)
          if (own[nth] !== undefined && own[nth] !== fingers[nth]) changed++;
        return changed * price;
      });
    }
    return bias;
  }
}

function isOpen(digit: unknown): boolean {
  return digit === undefined;
}
