import { cheapestAlike } from './alternatives-alike.js';
import { costsToGo, leastCostsThrough } from './alternatives-to-go.js';
import { Walk } from './alternatives-walk.js';
import { figuresOf } from './figures.js';
import { cheapestModels, chosenModels, likenessBias, type Models, unlikeness } from './likeness.js';
import { type Choice, leastPass } from './search.js';
import type { Bias, Stages } from './stages.js';

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
  let last = leastPass(free);
  const plain = last.choice;
  let best: AlikeChoice = plain;
  let least = plain.cost + unlikeness(views, figures, plain.path);
  // A choice that follows every model is the least with their bias too.
  if (least === plain.cost) return plain;
  const choose = (models: Models): Choice => {
    const bias = likenessBias(views, figures, models);
    last = leastPass(free.with(bias), last);
    const { choice } = last;
    const moved = choice.cost - choice.biased.reduce((sum, cost) => sum + cost, 0);
    const total = moved + unlikeness(views, figures, choice.path);
    const better = total < least;
    // Of equal ones, the one that is judged against what most of its own figures chose.
    const truer = total === least && (!best.bias || choice.cost < best.cost);
    if (better || truer) [best, least] = [{ ...choice, bias }, total];
    return choice;
  };
  const highest = figures.reduce((most, { price }) => Math.max(most, price), 0);
  let models = cheapestModels(views, figures, leastCostsThrough(free, last, highest));
  for (let pass = 0; pass < LIKENESS_PASSES; pass++) {
    const chosen = chosenModels(views, figures, choose(models).path);
    if (chosen.every((model, nth) => model === models[nth])) break;
    models = chosen;
  }
  if (views.length <= PASSAGE) {
    const walk = new Walk(free, costsToGo(free));
    const [path] = cheapestAlike(views, walk, figures, [best.path], 1, MOST_BEGINNINGS);
    if (path) choose(chosenModels(views, figures, path));
  }
  return best;
}
