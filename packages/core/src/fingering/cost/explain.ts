import type { HandModel } from '../../anatomy/hand.js';
import { rounded } from '../../numeric/fixed-point.js';
import type { Criterion } from '../../options/options.js';
import type { Finger } from '../../score/model.js';
import type { Surroundings } from '../view/surroundings.js';
import type { SliceView } from '../view/view.js';
import type { Choice } from './choice.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import type { ExtraCost } from './extra-cost.js';
import { heldCost } from './slice-costs.js';
import type { Sink, Term } from './terms/term.js';
import { OFFSETS, TERMS } from './terms/terms.js';
import { WeightedSums } from './weighted-sum.js';
import { WEIGHTS } from './weights.js';

/** What a slice costs. */
export interface Explained {
  /** By term, mm equivalents; terms that cost nothing are left out. */
  readonly terms: Readonly<Record<string, number>>;
  /** Mechanics alone, by the weights of movement, mm. */
  readonly movement: number;
}

/**
 * Cost of every slice.
 *
 * @param by what the fingers were chosen by
 * @param chosen the fingers of the choice
 */
export function explain(
  by: Criterion,
  views: readonly SliceView[],
  surroundings: readonly Surroundings[],
  chosen: readonly (readonly Finger[])[],
  choice: Choice,
  hand: HandModel,
  grid: DepthGrid,
  extraCosts: readonly ExtraCost[] = [],
): readonly Explained[] {
  const costs = new ChosenCosts(by, views, surroundings, chosen, choice, hand, grid, extraCosts);
  const explained: Explained[] = [];
  for (let at = 0; at < views.length; at++) explained.push(costs.of(at));
  return explained;
}

/** Counts what a term says of a slice, of the step into it, of the chain that ends in it; undefined where it says nothing. */
interface Counting {
  readonly slice: Term['slice'] | undefined;
  readonly pair: Term['pair'] | undefined;
  readonly triple: Term['triple'] | undefined;
}

/** The terms as objects of one shape, since to read many takes half as long again, each with the index of its first weight. */
const COUNTED = TERMS.map(({ name, slice, pair, triple }, nth) => ({
  name,
  slice,
  pair,
  triple,
  base: OFFSETS[nth]!,
}));

class ChosenCosts {
  readonly #sums: WeightedSums;
  readonly #row = new Float64Array(DEPTH_COUNT);

  constructor(
    by: Criterion,
    private readonly views: readonly SliceView[],
    private readonly surroundings: readonly Surroundings[],
    private readonly chosen: readonly (readonly Finger[])[],
    private readonly choice: Choice,
    private readonly hand: HandModel,
    private readonly grid: DepthGrid,
    private readonly extraCosts: readonly ExtraCost[],
  ) {
    this.#sums = new WeightedSums(WEIGHTS[by], WEIGHTS.movement);
  }

  of(at: number): Explained {
    const { views, chosen } = this;
    const terms: Record<string, number> = {};
    const mechanics = this.#countTerms(at, terms);
    const view = views[at]!;
    const before = view.cut ? undefined : views[at - 1];
    const depth = this.#depth(at, view, before);
    const substitution = before ? heldCost(before, view, chosen[at - 1]!, chosen[at]!) : 0;
    note(terms, 'depth', depth);
    note(terms, 'likeness', this.choice.biased[at]!);
    this.#noteExtra(at, view, terms);
    note(terms, 'substitution', substitution);
    return { terms, movement: rounded(mechanics + depth + substitution) };
  }

  /** Returns what mechanics alone cost. */
  #countTerms(at: number, terms: Record<string, number>): number {
    const sums = this.#sums;
    sums.mechanics = 0;
    for (let nth = 0; nth < COUNTED.length; nth++) {
      const term = COUNTED[nth]!;
      sums.begin(term.base);
      countTerm(term, this.views, this.surroundings, this.chosen, at, this.hand, sums);
      note(terms, term.name, sums.sum);
    }
    return sums.mechanics;
  }

  #depth(at: number, view: SliceView, before: SliceView | undefined): number {
    const { depths } = this.choice;
    const row = this.#row.fill(0);
    this.grid.addDiscomfort(view, this.chosen[at]!, row, 0);
    const travel = before ? this.grid.kernel(view)[depths[at - 1]! * DEPTH_COUNT + depths[at]!]! : 0;
    return row[depths[at]!]! + travel;
  }

  #noteExtra(at: number, view: SliceView, terms: Record<string, number>): void {
    const { path, depths } = this.choice;
    for (const { name, slices } of this.extraCosts) {
      const { own, steps } = slices.get(at) ?? {};
      const pair = at > 0 ? path[at - 1]! * view.candidates.length + path[at]! : 0;
      note(terms, name, (own?.[path[at]! * DEPTH_COUNT + depths[at]!] ?? 0) + (steps?.[pair] ?? 0));
    }
  }
}

/** Adds what a term counts at a slice: its fingers, the step into it, the chain that ends in it. */
export function countTerm(
  term: Partial<Counting>,
  views: readonly SliceView[],
  surroundings: readonly Surroundings[],
  chosen: readonly (readonly Finger[])[],
  at: number,
  hand: HandModel,
  into: Sink,
): void {
  const view = views[at]!;
  const before = view.cut ? undefined : views[at - 1];
  const first = before?.cut ? undefined : views[at - 2];
  term.slice?.(view, chosen[at]!, surroundings[at]!, into, hand);
  if (before) term.pair?.(before, view, hand)?.count(chosen[at - 1]!, chosen[at]!, into);
  if (before && first) {
    term.triple?.(first, before, view)?.count(chosen[at - 2]!, chosen[at - 1]!, chosen[at]!, into);
  }
}

function note(terms: Record<string, number>, name: string, cost: number): void {
  if (cost === 0) return;
  const own = rounded(cost);
  if (own !== 0) terms[name] = rounded((terms[name] ?? 0) + own);
}
