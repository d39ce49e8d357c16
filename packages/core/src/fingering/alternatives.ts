import type { HandModel } from '../anatomy/hand.js';
import type { Line } from '../hands/line.js';
import { figuresOf } from './consistency/figures.js';
import { cheapestAlike } from './consistency/joint.js';
import { chosenModels, likenessBias } from './consistency/models.js';
import { alikeChoice } from './consistency/settle.js';
import { LineCosts } from './cost/line-costs.js';
import { Stages } from './cost/objective.js';
import { fingeringOf, prepare } from './finger.js';
import type { LineFingering } from './result.js';
import { costsToGo } from './search/backward.js';
import { leastChoice } from './search/forward.js';
import { cheapestPaths } from './search/k-best.js';
import { Walk } from './search/prefix.js';

export interface AlternativesOptions {
  /** Demand the digits that the file gives. Default true. */
  readonly keepDigits?: boolean;
  /** Fingerings wanted. Default 2. */
  readonly count?: number;
}

/** Beginnings followed at most; two octaves of a scale up and down take some 600. */
const MOST_BEGINNINGS = 20_000;

/**
 * The cheapest distinct fingerings of a passage, cheapest first, each with its cost by term in mm equivalents: the sum of
 * the terms, depth included, and what the passage pays where it fingers the same figure differently from most of its
 * equals. Exact for passages up to a few dozen slices, where no more than 20,000 beginnings are worth following; beyond
 * that the cheapest of those followed and of the exact ones under the habits of the best fingering. There are fewer than
 * `count` where the hand has fewer ways to play the passage.
 */
export function alternatives(
  line: Line,
  hand: HandModel,
  options: AlternativesOptions = {},
): readonly LineFingering[] {
  const { keepDigits = true, count = 2 } = options;
  if (count < 1) return [];
  const prepared = prepare(line, hand, { keepDigits });
  const { views, around, costs, grid, stages } = prepared;
  const figures = figuresOf(views);
  const { bias } = alikeChoice(stages);
  const known = cheapestPaths(stages.with(bias), count);
  const walk = new Walk(stages, costsToGo(stages));
  return cheapestAlike(views, walk, figures, known, count, MOST_BEGINNINGS).map((path) => {
    const single = views.map((view, at) => ({ ...view, candidates: [view.candidates[path[at]!]!] }));
    const unlike = likenessBias(single, figures, chosenModels(views, figures, path));
    const choice = leastChoice(new Stages(new LineCosts(single, around, costs, grid), unlike));
    return fingeringOf(prepared, { ...choice, path }, []);
  });
}
