import type { CostTable } from './cost.js';
import type { DepthGrid } from './depth.js';
import { figureModels, fingersAt, LIKENESS, likenessBias, likeSlices } from './likeness.js';
import { type Choice, leastChoice } from './search.js';
import { type Bias, type Further, Stages } from './stages.js';
import type { Outlook } from './terms/term.js';
import type { SliceView } from './view.js';

/** Passes in which like figures settle on like fingers; most lines need two. */
const LIKENESS_PASSES = 3;

/** A choice and the bias under which it is the least; none where no figure comes twice. */
export interface AlikeChoice extends Choice {
  readonly bias?: Bias;
}

/**
 * The exact minimum, then again with what unlike figures pay, until no model changes: each pass is exact for its stated
 * cost, the likeness of a pass being judged against the choice of the pass before. Of all passes the one counts whose
 * own cost, with what its unlike figures pay against its own models, is least.
 */
export function alikeChoice(
  views: readonly SliceView[],
  around: readonly Outlook[],
  costs: CostTable,
  grid: DepthGrid,
  further: readonly Further[] = [],
): AlikeChoice {
  const least = (bias?: Bias) => leastChoice(new Stages(views, around, costs, grid, bias, further));
  const groups = likeSlices(views);
  let choice: AlikeChoice = least();
  let models = figureModels(views, groups, choice.path);
  let best = choice;
  let bestTotal = totalOf(choice, views, groups, models);
  for (let pass = 0; pass < LIKENESS_PASSES; pass++) {
    // A choice that follows every model is the least with their bias too.
    if (unlikeSlices(choice, views, groups, models) === 0) break;
    const bias = likenessBias(views, groups, models);
    choice = { ...least(bias), bias };
    const next = figureModels(views, groups, choice.path);
    const total = totalOf(choice, views, groups, next);
    if (total < bestTotal) [best, bestTotal] = [choice, total];
    if (next.every((model, nth) => model === models[nth])) break;
    models = next;
  }
  return best;
}

type Groups = readonly (readonly number[])[];

function unlikeSlices(
  { path }: Choice,
  views: readonly SliceView[],
  groups: Groups,
  models: readonly string[],
): number {
  let count = 0;
  groups.forEach((group, nth) => {
    for (const at of group) if (fingersAt(views[at]!, path[at]!) !== models[nth]) count++;
  });
  return count;
}

function totalOf(
  choice: Choice,
  views: readonly SliceView[],
  groups: Groups,
  models: readonly string[],
): number {
  const plain = choice.cost - choice.biased.reduce((sum, cost) => sum + cost, 0);
  return plain + LIKENESS * unlikeSlices(choice, views, groups, models);
}
