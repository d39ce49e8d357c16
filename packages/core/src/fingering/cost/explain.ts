import type { HandModel } from '../../anatomy/hand.js';
import { rounded } from '../../numeric/fixed-point.js';
import type { Finger } from '../../score/model.js';
import type { Surroundings } from '../view/surroundings.js';
import type { SliceView } from '../view/view.js';
import type { Choice } from './choice.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import type { ExtraCost } from './extra-cost.js';
import { heldCost } from './slice-costs.js';
import { OFFSETS, TERMS } from './terms/terms.js';
import { WeightedSum } from './terms/weighted-sum.js';
import { WEIGHTS } from './weights.js';

/**
 * Cost of every slice by term, in mm equivalents; terms that cost nothing are left out.
 *
 * @param chosen the fingers of the choice
 */
export function explain(
  views: readonly SliceView[],
  surroundings: readonly Surroundings[],
  chosen: readonly (readonly Finger[])[],
  { path, depths, biased }: Choice,
  hand: HandModel,
  grid: DepthGrid,
  extraCosts: readonly ExtraCost[] = [],
): readonly Readonly<Record<string, number>>[] {
  const total = new WeightedSum(WEIGHTS);
  const row = new Float64Array(DEPTH_COUNT);
  const costs: Record<string, number>[] = [];
  for (let at = 0; at < views.length; at++) {
    const view = views[at]!;
    const terms: Record<string, number> = {};
    const before = view.cut ? undefined : views[at - 1];
    const first = before?.cut ? undefined : views[at - 2];
    const fingers = chosen[at]!;
    for (let nth = 0; nth < TERMS.length; nth++) {
      const term = TERMS[nth]!;
      total.begin(OFFSETS[nth]!);
      term.slice?.(view, fingers, surroundings[at]!, total, hand);
      if (before) term.pair?.(before, view, hand)?.count(chosen[at - 1]!, fingers, total);
      if (before && first) {
        term.triple?.(first, before, view).count(chosen[at - 2]!, chosen[at - 1]!, fingers, total);
      }
      note(terms, term.name, total.sum);
    }
    row.fill(0);
    grid.addDiscomfort(view, fingers, row, 0);
    const travel = before ? grid.kernel(view)[depths[at - 1]! * DEPTH_COUNT + depths[at]!]! : 0;
    note(terms, 'depth', row[depths[at]!]! + travel);
    note(terms, 'likeness', biased[at]!);
    for (const { name, slices } of extraCosts) {
      const { own, steps } = slices.get(at) ?? {};
      const pair = at > 0 ? path[at - 1]! * view.candidates.length + path[at]! : 0;
      note(terms, name, (own?.[path[at]! * DEPTH_COUNT + depths[at]!] ?? 0) + (steps?.[pair] ?? 0));
    }
    if (before) note(terms, 'substitution', heldCost(before, view, chosen[at - 1]!, fingers));
    costs.push(terms);
  }
  return costs;
}

function note(terms: Record<string, number>, name: string, cost: number): void {
  if (cost === 0) return;
  const own = rounded(cost);
  if (own !== 0) terms[name] = rounded((terms[name] ?? 0) + own);
}
