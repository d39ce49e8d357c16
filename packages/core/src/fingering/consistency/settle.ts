import { sumOf } from '../../numeric/fixed-point.js';
import type { Choice } from '../cost/choice.js';
import type { Bias, Objective } from '../cost/objective.js';
import { costsToGo, leastCostsThrough } from '../search/backward.js';
import { Search } from '../search/forward.js';
import { PrefixCosts } from '../search/prefix.js';
import type { SliceView } from '../view/view.js';
import {
  type Consensus,
  cheapestConsensus,
  consensusOf,
  consistencyBias,
  inconsistency,
} from './consensus.js';
import type { Figure } from './figures/figure.js';
import { figuresOf } from './figures/figures.js';
import { cheapestConsistent } from './joint.js';
import { spread } from './spread.js';

/** Searches with a consensus assumed; a third changes next to nothing. */
const ROUNDS = 2;
/** Times that the ways of figures are tried at all their occurrences; a third changes next to nothing. */
const SPREADS = 2;
/** Slices of a passage that is short enough to search it for the joint minimum itself, and prefixes followed for that. */
const PASSAGE = 64;
const MOST_PREFIXES = 5000;

/** A choice and the bias under which it is the least; without one where no figure recurs. */
export interface ConsistentChoice extends Choice {
  readonly bias?: Bias;
}

interface Proposal {
  readonly choice: ConsistentChoice;
  /** What most slices of each figure have in this choice. */
  readonly consensus: Consensus;
  /** Cost of the fingering, with what it pays for deviating from its own consensus; the bias left out. */
  readonly total: number;
}

/**
 * The fingering that costs least, with what it pays where it fingers the same figure in different ways. That price depends
 * on slices far apart, which the search cannot weigh together. Instead a consensus is assumed and every deviation from it
 * priced, which the search minimises exactly: first with no consensus, then with the fingers that cost each figure's
 * slices least together, then with the consensus of the fingering just found. What no slice changes alone is tried at all
 * places of a figure at once (`spread`). A passage of up to `PASSAGE` slices is searched for the joint minimum, too. The
 * best of these proposals is taken: exact for such a passage as long as `MOST_PREFIXES` suffice, else an approximation.
 *
 * @param free the objective without a bias
 */
export function consistentChoice(free: Objective): ConsistentChoice {
  const { views } = free;
  const figures = figuresOf(views);
  const search = new Search();
  const plain = proposalOf(views, figures, search.find(free));
  // A choice that follows its own consensus everywhere is the least under that bias too.
  if (plain.total === plain.choice.cost) return plain.choice;
  const proposals = [plain];
  const through = leastCostsThrough(free, search, plain.choice.cost + highestPrice(figures));
  let consensus = cheapestConsensus(views, figures, through);
  for (let round = 0; round < ROUNDS; round++) {
    const proposal = proposalTowards(free, figures, consensus, search);
    proposals.push(proposal);
    if (areSame(proposal.consensus, consensus)) break;
    consensus = proposal.consensus;
  }
  for (let round = 0; round < SPREADS; round++) {
    const path = spread(free, figures, proposals.reduce(better).choice);
    if (!path) break;
    proposals.push(proposalTowards(free, figures, consensusOf(views, figures, path), search));
  }
  if (views.length <= PASSAGE) {
    const prefixes = new PrefixCosts(free, costsToGo(free));
    const known = proposals.reduce(better).choice.path;
    const [path] = cheapestConsistent(views, prefixes, figures, [known], 1, MOST_PREFIXES);
    if (path) proposals.push(proposalTowards(free, figures, consensusOf(views, figures, path), search));
  }
  return proposals.reduce(better).choice;
}

/** The least choice where deviating from a consensus is priced. */
function proposalTowards(
  free: Objective,
  figures: readonly Figure[],
  consensus: Consensus,
  search: Search,
): Proposal {
  const bias = consistencyBias(free.views, figures, consensus);
  return proposalOf(free.views, figures, { ...search.find(free.with(bias)), bias });
}

function proposalOf(
  views: readonly SliceView[],
  figures: readonly Figure[],
  choice: ConsistentChoice,
): Proposal {
  const consensus = consensusOf(views, figures, choice.path);
  const paid = inconsistency(views, figures, choice.path, consensus);
  return { choice, consensus, total: choice.cost - sumOf(choice.biased) + paid };
}

/** The cheaper one; of equal ones that whose bias comes nearest to its own consensus, else the first. */
function better(first: Proposal, second: Proposal): Proposal {
  if (second.total !== first.total) return second.total < first.total ? second : first;
  return !first.choice.bias || second.choice.cost < first.choice.cost ? second : first;
}

function highestPrice(figures: readonly Figure[]): number {
  let highest = 0;
  for (const { price } of figures) highest = Math.max(highest, price);
  return highest;
}

function areSame(one: Consensus, other: Consensus): boolean {
  for (let nth = 0; nth < one.length; nth++) if (one[nth] !== other[nth]) return false;
  return true;
}
