import type { HandModel } from '../anatomy/hand.js';
import type { Line } from '../hands/line.js';
import { alikeChoice } from './alike.js';
import { cheapestAlike } from './alternatives-alike.js';
import { cheapestPaths } from './alternatives-best.js';
import { costsToGo } from './alternatives-to-go.js';
import { Walk } from './alternatives-walk.js';
import { figuresOf } from './figures.js';
import { fingeringOf, prepare } from './finger.js';
import { chosenModels, likenessBias } from './likeness.js';
import { LineCosts } from './line-costs.js';
import type { LineFingering } from './result.js';
import { leastChoice } from './search.js';
import { Stages } from './stages.js';

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
