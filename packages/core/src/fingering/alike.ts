import { leastCostsThrough } from './alternatives-to-go.js';
import type { CostTable } from './cost.js';
import type { DepthGrid } from './depth.js';
import { cheapestModels, chosenModels, figuresOf, likenessBias, unlikeness } from './likeness.js';
import { type Choice, leastChoice } from './search.js';
import { type Bias, type Further, Stages } from './stages.js';
import type { Outlook } from './terms/term.js';
import type { SliceView } from './view.js';

/** Passes in which like figures settle on like fingers; a third changes next to nothing. */
const LIKENESS_PASSES = 2;

/** A choice and the bias under which it is the least; none where no figure comes twice. */
export interface AlikeChoice extends Choice {
  readonly bias?: Bias;
}

/**
 * The exact minimum, then again with what slices pay for being unlike: first the models that cost their figures least
 * together, then those that the pass before chose. Each pass is exact for its stated cost; of all of them that one counts
 * whose own cost, with what its unlike figures pay against what most of them chose, is least.
 */
export function alikeChoice(
  views: readonly SliceView[],
  around: readonly Outlook[],
  costs: CostTable,
  grid: DepthGrid,
  further: readonly Further[] = [],
): AlikeChoice {
  const figures = figuresOf(views);
  const free = new Stages(views, around, costs, grid, undefined, further);
  const plain = leastChoice(free);
  let best: AlikeChoice = plain;
  let least = plain.cost + unlikeness(views, figures, chosenModels(views, figures, plain.path), plain.path);
  // A choice that follows every model is the least with their bias too.
  if (least === plain.cost) return plain;
  let models = cheapestModels(views, figures, leastCostsThrough(free));
  for (let pass = 0; pass < LIKENESS_PASSES; pass++) {
    const bias = likenessBias(views, figures, models);
    const choice = leastChoice(new Stages(views, around, costs, grid, bias, further));
    const chosen = chosenModels(views, figures, choice.path);
    const moved = choice.cost - choice.biased.reduce((sum, cost) => sum + cost, 0);
    const total = moved + unlikeness(views, figures, chosen, choice.path);
    if (total < least) [best, least] = [{ ...choice, bias }, total];
    if (chosen.every((model, nth) => model === models[nth])) break;
    models = chosen;
  }
  return best;
}
