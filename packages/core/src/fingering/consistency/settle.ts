import { sumOf } from '../../numeric/fixed-point.js';
import type { Bias, Stages } from '../cost/objective.js';
import { costsToGo, leastCostsThrough } from '../search/backward.js';
import { type Choice, Search } from '../search/forward.js';
import { Walk } from '../search/prefix.js';
import { type Figure, figuresOf } from './figures.js';
import { cheapestAlike } from './joint.js';
import { cheapestModels, chosenModels, likenessBias, type Models, unlikeness } from './models.js';

/** Passes in which like figures settle on like fingers; a third changes next to nothing. */
const LIKENESS_PASSES = 2;
/** Slices of a passage that is short enough to look for the joint minimum itself, and beginnings followed for it. */
const PASSAGE = 64;
const MOST_BEGINNINGS = 5000;

/** A choice and the bias under which it is the least; none where no figure comes twice. */
export interface AlikeChoice extends Choice {
  readonly bias?: Bias;
}

/**
 * The exact minimum, then again with what slices pay for being unlike: first the models that cost their figures least
 * together, then those that the pass before chose. Each pass is exact for its stated cost; of all of them that one counts
 * whose own cost, with what its unlike figures pay against what most of them chose, is least. A passage of up to
 * `PASSAGE` slices is searched for a fingering that costs even less in this way.
 *
 * @param free the stated cost without a bias
 */
export function alikeChoice(free: Stages): AlikeChoice {
  const { views } = free;
  const figures = figuresOf(views);
  const search = new Search();
  const plain = search.find(free);
  let best: AlikeChoice = plain;
  let least = plain.cost + unlikeness(views, figures, plain.path);
  // A choice that follows every model is the least with their bias too.
  if (least === plain.cost) return plain;
  /** Returns the models that the choice found chooses itself. */
  const choose = (models: Models): Models => {
    const bias = likenessBias(views, figures, models);
    const choice = search.again(free.with(bias));
    const chosen = chosenModels(views, figures, choice.path);
    const total = choice.cost - sumOf(choice.biased) + unlikeness(views, figures, choice.path, chosen);
    const better = total < least;
    // Of equal ones, the one that is judged against what most of its own figures chose.
    const truer = total === least && (!best.bias || choice.cost < best.cost);
    if (better || truer) [best, least] = [{ ...choice, bias }, total];
    return chosen;
  };
  const through = leastCostsThrough(free, search, plain.cost + highestPrice(figures));
  let models = cheapestModels(views, figures, through);
  for (let pass = 0; pass < LIKENESS_PASSES; pass++) {
    const chosen = choose(models);
    if (areSame(chosen, models)) break;
    models = chosen;
  }
  if (views.length <= PASSAGE) {
    const walk = new Walk(free, costsToGo(free));
    const [path] = cheapestAlike(views, walk, figures, [best.path], 1, MOST_BEGINNINGS);
    if (path) choose(chosenModels(views, figures, path));
  }
  return best;
}

function highestPrice(figures: readonly Figure[]): number {
  let highest = 0;
  for (const { price } of figures) highest = Math.max(highest, price);
  return highest;
}

function areSame(models: Models, others: Models): boolean {
  for (let nth = 0; nth < models.length; nth++) if (models[nth] !== others[nth]) return false;
  return true;
}
