import type { HandModel } from '../anatomy/hand.js';
import type { Line } from '../hands/line.js';
import { cheapestPaths } from './alternatives-best.js';
import { fingeringOf, prepare } from './finger.js';
import type { LineFingering } from './result.js';
import { leastCost } from './search.js';
import { Stages } from './stages.js';

export interface AlternativesOptions {
  /** Demand the digits that the file gives. Default true. */
  readonly keepDigits?: boolean;
  /** Fingerings wanted. Default 2. */
  readonly count?: number;
}

/**
 * The cheapest distinct fingerings of a passage, cheapest first, each with its cost by term in mm equivalents. Exact for
 * the sum of the terms, depth included; likeness of figures is left out, because it would be judged against one of the
 * fingerings to compare. There are fewer than `count` where the hand has fewer ways to play the passage.
 */
export function alternatives(
  line: Line,
  hand: HandModel,
  options: AlternativesOptions = {},
): readonly LineFingering[] {
  const { keepDigits = true, count = 2 } = options;
  const prepared = prepare(line, hand, { keepDigits });
  const { views, around, costs, grid } = prepared;
  return cheapestPaths(new Stages(views, around, costs, grid), count).map((path) => {
    const single = views.map((view, at) => ({ ...view, candidates: [view.candidates[path[at]!]!] }));
    const choice = leastCost(single, around, costs, grid);
    return fingeringOf(prepared, { ...choice, path }, []);
  });
}
