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
  { path, depths, biased }: Choice,
  hand: HandModel,
  grid: DepthGrid,
  extraCosts: readonly ExtraCost[] = [],
): readonly Explained[] {
  const sums = new WeightedSums(WEIGHTS[by], WEIGHTS.movement);
  const row = new Float64Array(DEPTH_COUNT);
  const costs: Explained[] = [];
  for (let at = 0; at < views.length; at++) {
    const view = views[at]!;
    const terms: Record<string, number> = {};
    sums.mechanics = 0;
    for (let nth = 0; nth < TERMS.length; nth++) {
      const term = TERMS[nth]!;
      sums.begin(OFFSETS[nth]!);
      countTerm(term, views, surroundings, chosen, at, hand, sums);
      note(terms, term.name, sums.sum);
    }
    const before = view.cut ? undefined : views[at - 1];
    row.fill(0);
    grid.addDiscomfort(view, chosen[at]!, row, 0);
    const travel = before ? grid.kernel(view)[depths[at - 1]! * DEPTH_COUNT + depths[at]!]! : 0;
    const depth = row[depths[at]!]! + travel;
    const substitution = before ? heldCost(before, view, chosen[at - 1]!, chosen[at]!) : 0;
    note(terms, 'depth', depth);
    note(terms, 'likeness', biased[at]!);
    for (const { name, slices } of extraCosts) {
      const { own, steps } = slices.get(at) ?? {};
      const pair = at > 0 ? path[at - 1]! * view.candidates.length + path[at]! : 0;
      note(terms, name, (own?.[path[at]! * DEPTH_COUNT + depths[at]!] ?? 0) + (steps?.[pair] ?? 0));
    }
    note(terms, 'substitution', substitution);
    costs.push({ terms, movement: rounded(sums.mechanics + depth + substitution) });
  }
  return costs;
}

/** Adds what a term counts at a slice: its fingers, the step into it, the chain that ends in it. */
export function countTerm(
  term: Term,
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
