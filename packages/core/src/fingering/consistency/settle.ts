import { sumOf } from '../../numeric/fixed-point.js';
import type { Choice } from '../cost/choice.js';
import type { Bias, Objective } from '../cost/objective.js';
import { costsToGo, leastCostsThrough } from '../search/backward.js';
import { Search } from '../search/forward.js';
import { PrefixCosts } from '../search/prefix.js';
import {
  type Consensus,
  cheapestConsensus,
  consensusOf,
  consistencyBias,
  inconsistency,
} from './consensus.js';
import { type Figure, figuresOf } from './figures.js';
import { cheapestConsistent } from './joint.js';

/** Passes in which like figures settle on like fingers; a third changes next to nothing. */
const PASSES = 2;
/** Slices of a passage that is short enough to look for the joint minimum itself, and beginnings followed for it. */
const PASSAGE = 64;
const MOST_PREFIXES = 5000;

/** A choice and the bias under which it is the least; none where no figure comes twice. */
export interface ConsistentChoice extends Choice {
  readonly bias?: Bias;
}

/**
 * The exact minimum, then again with what slices pay for being unlike: first the consensus that cost their figures least
 * together, then those that the pass before chose. Each pass is exact for its stated cost; of all of them that one counts
 * whose own cost, with what its unlike figures pay against what most of them chose, is least. A passage of up to
 * `PASSAGE` slices is searched for a fingering that costs even less in this way.
 *
 * @param free the stated cost without a bias
 */
export function consistentChoice(free: Objective): ConsistentChoice {
  const { views } = free;
  const figures = figuresOf(views);
  const search = new Search();
  const plain = search.find(free);
  let best: ConsistentChoice = plain;
  let least = plain.cost + inconsistency(views, figures, plain.path);
  // A choice that follows every model is the least with their bias too.
  if (least === plain.cost) return plain;
  /** Returns the consensus that the choice found chooses itself. */
  const choose = (consensus: Consensus): Consensus => {
    const bias = consistencyBias(views, figures, consensus);
    const choice = search.again(free.with(bias));
    const chosen = consensusOf(views, figures, choice.path);
    const total = choice.cost - sumOf(choice.biased) + inconsistency(views, figures, choice.path, chosen);
    const better = total < least;
    // Of equal ones, the one that is judged against what most of its own figures chose.
    const truer = total === least && (!best.bias || choice.cost < best.cost);
    if (better || truer) [best, least] = [{ ...choice, bias }, total];
    return chosen;
  };
  const through = leastCostsThrough(free, search, plain.cost + highestPrice(figures));
  let consensus = cheapestConsensus(views, figures, through);
  for (let pass = 0; pass < PASSES; pass++) {
    const chosen = choose(consensus);
    if (areSame(chosen, consensus)) break;
    consensus = chosen;
  }
  if (views.length <= PASSAGE) {
    const prefixes = new PrefixCosts(free, costsToGo(free));
    const [path] = cheapestConsistent(views, prefixes, figures, [best.path], 1, MOST_PREFIXES);
    if (path) choose(consensusOf(views, figures, path));
  }
  return best;
}

function highestPrice(figures: readonly Figure[]): number {
  let highest = 0;
  for (const { price } of figures) highest = Math.max(highest, price);
  return highest;
}

function areSame(consensus: Consensus, others: Consensus): boolean {
  for (let nth = 0; nth < consensus.length; nth++) if (consensus[nth] !== others[nth]) return false;
  return true;
}
