import type { HandModel } from '../anatomy/hand.js';
import type { Line } from '../hands/line.js';
import { consensusOf, consistencyBias } from './consistency/consensus.js';
import { figuresOf } from './consistency/figures.js';
import { cheapestConsistent } from './consistency/joint.js';
import { consistentChoice } from './consistency/settle.js';
import { LineCosts } from './cost/line-costs.js';
import { Objective } from './cost/objective.js';
import { fingeringOf, prepare } from './finger.js';
import type { LineFingering } from './result.js';
import { costsToGo } from './search/backward.js';
import { leastChoice } from './search/forward.js';
import { cheapestPaths } from './search/k-best.js';
import { PrefixCosts } from './search/prefix.js';

export interface AlternativesOptions {
  /** Demand the digits that the file gives. Default true. */
  readonly keepDigits?: boolean;
  /** Fingerings wanted. Default 2. */
  readonly count?: number;
}

/** Prefixes followed at most; two octaves of a scale up and down take some 600. */
const MOST_PREFIXES = 20_000;

/**
 * The cheapest distinct fingerings of a passage, cheapest first, each with its cost by term in mm equivalents: the sum of
 * the terms, depth included, and what the passage pays where it fingers the same figure in different ways. Exact for
 * passages up to a few dozen slices, where the search need follow no more than 20,000 prefixes; in longer ones the cheapest
 * of those followed, and of the fingerings that agree best with the consensus of the best one. There are fewer than
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
  const { views, surroundings, costs, grid, objective } = prepared;
  const figures = figuresOf(views);
  const { bias } = consistentChoice(objective);
  const known = cheapestPaths(objective.with(bias), count);
  const prefixes = new PrefixCosts(objective, costsToGo(objective));
  return cheapestConsistent(views, prefixes, figures, known, count, MOST_PREFIXES).map((path) => {
    const single = views.map((view, at) => ({ ...view, candidates: [view.candidates[path[at]!]!] }));
    const deviations = consistencyBias(single, figures, consensusOf(views, figures, path));
    const choice = leastChoice(new Objective(new LineCosts(single, surroundings, costs, grid), deviations));
    return fingeringOf(prepared, { ...choice, path }, []);
  });
}
