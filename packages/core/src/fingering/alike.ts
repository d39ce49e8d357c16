import type { CostTable } from './cost.js';
import type { DepthGrid } from './depth.js';
import { figureModels, fingersAt, likenessBias, likeSlices } from './likeness.js';
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
 * The exact minimum, then again with what unlike figures pay, until no slice changes: each pass is exact for its stated
 * cost, the likeness of a pass being judged against the choice of the pass before.
 */
export function alikeChoice(
  views: readonly SliceView[],
  around: readonly Outlook[],
  costs: CostTable,
  grid: DepthGrid,
  further: readonly Further[] = [],
): AlikeChoice {
  const least = (bias?: Bias) => leastChoice(new Stages(views, around, costs, grid, bias, further));
  let choice: AlikeChoice = least();
  const groups = likeSlices(views);
  let models: readonly string[] = [];
  for (let pass = 0; pass < LIKENESS_PASSES; pass++) {
    const next = figureModels(views, groups, choice.path);
    // The same models mean the same bias, and a choice that follows every model is the least with their bias too.
    if (next.every((model, nth) => model === models[nth])) break;
    models = next;
    const bias = likenessBias(views, groups, models);
    const alike = groups.every((group, nth) =>
      group.every((at) => fingersAt(views[at]!, choice.path[at]!) === models[nth]),
    );
    choice = alike ? { ...choice, bias } : { ...least(bias), bias };
  }
  return choice;
}
