import type { HandModel } from '../anatomy/hand.js';
import type { PlayingContext } from '../hands/context.js';
import type { Line } from '../hands/line.js';
import { checkAlternatives, checkLine } from '../options/allowed.js';
import type { Criterion } from '../options/options.js';
import { consensusOf, consistencyBias } from './consistency/consensus.js';
import { figuresOf } from './consistency/figures/figures.js';
import { cheapestConsistent } from './consistency/joint.js';
import type { Choice } from './cost/choice.js';
import type { Objective } from './cost/objective.js';
import { fingeringOf, leastFingering, prepare } from './finger.js';
import type { LineFingering } from './result.js';
import { costsToGo } from './search/backward.js';
import { leastChoice } from './search/forward.js';
import { cheapestPaths } from './search/k-best.js';
import { PrefixCosts } from './search/prefix.js';

/** What `alternatives` takes beside the line: its context, as `readLines` gives it, and how many are wanted. */
export interface AlternativesOptions extends PlayingContext {
  /** What the fingers are chosen by. Default usage. */
  readonly by?: Criterion;
  /** Keep the digits that the file gives. Default true. */
  readonly keepDigits?: boolean;
  /** Fingerings wanted, the printed one included. Default 2. */
  readonly count?: number;
}

/** Prefixes followed at most; two octaves of a scale up and down take some 600. */
const MOST_PREFIXES = 20_000;

/**
 * Distinct fingerings of a passage, each with its cost by term in mm equivalents: first the one that `fingerLine` finds,
 * then the cheapest others, cheapest first. There are fewer than `count` where the hand has fewer ways to play the passage.
 *
 * The cost is the sum of the terms, depth, ornaments and repeats included, and what the passage pays where it fingers the
 * same figure in different ways. Exact for passages up to a few dozen slices, where the search need follow no more than
 * 20,000 prefixes; in longer ones the cheapest of those followed, and of the fingerings that agree best with the consensus
 * of the first. There one of the others may cost a little less than the first, whose own search follows fewer prefixes.
 * Where a repeat or a jump joins two places, each of the others differs from the first on one side of it only.
 *
 * @throws HandlineError OPTION
 */
export function alternatives(
  line: Line,
  hand: HandModel,
  options: AlternativesOptions = {},
): readonly LineFingering[] {
  checkLine(line, hand);
  checkAlternatives(options);
  const { count = 2, flow, ...own } = options;
  if (count < 1 || line.slices.length === 0) return [];
  const prepared = prepare(line, hand, { ...own, flow });
  const { choice, objective, otherObjective } = leastFingering(prepared, flow);
  const first = fingeringOf(prepared, choice, objective.extraCosts);
  const others = new Map<string, LineFingering>();
  for (const paid of otherObjective ? [objective, otherObjective()] : [objective]) {
    for (const path of cheapestUnder(paid, choice.path, count)) {
      others.set(path.join(), fingeringOf(prepared, choiceOf(path, paid), paid.extraCosts));
    }
  }
  others.delete(choice.path.join());
  return [first, ...[...others.values()].sort((a, b) => a.cost - b.cost)].slice(0, count);
}

/** The cheapest paths, inconsistencies included. */
function cheapestUnder(
  objective: Objective,
  first: readonly number[],
  count: number,
): readonly (readonly number[])[] {
  const free = objective.with(undefined);
  const prefixes = new PrefixCosts(free, costsToGo(free));
  const known = [first, ...cheapestPaths(objective, count)];
  return cheapestConsistent(free.views, prefixes, figuresOf(free.views), known, count, MOST_PREFIXES);
}

/** A path with the depths that suit it best, and what its inconsistencies cost. */
function choiceOf(path: readonly number[], objective: Objective): Choice {
  const { views } = objective;
  const figures = figuresOf(views);
  const deviations = consistencyBias(views, figures, consensusOf(views, figures, path));
  const held = views.map(({ candidates }, at) =>
    candidates.map((_, nth) => (nth === path[at] ? (deviations[at]?.[nth] ?? 0) : Number.POSITIVE_INFINITY)),
  );
  return leastChoice(objective.with(held));
}
