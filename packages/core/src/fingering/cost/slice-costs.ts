import type { HandModel } from '../../anatomy/hand.js';
import { BoundedCache } from '../../numeric/bounded-cache.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import type { Finger } from '../../score/model.js';
import { SUBSTITUTION_SECONDS } from '../view/held-keys.js';
import type { CandidateFingers } from '../view/holds.js';
import { intervalBetween, isAugmentedSecond } from '../view/interval.js';
import { strikesAgain } from '../view/struck.js';
import type { Surroundings } from '../view/surroundings.js';
import { PACES, type SliceView } from '../view/view.js';
import { MOST_PATTERNS, Patterns } from './patterns.js';
import type { Term } from './terms/term.js';
import { OFFSETS, TERMS } from './terms/terms.js';
import { WeightedSum } from './weighted-sum.js';

/** mm equivalents of a silent substitution, the change of finger on a held key, and of one for which there is no time. */
const SUBSTITUTION = 60;
export const NO_TIME = 2000;

/** Lengths of trills that are told apart (`Alternation`), and ways in which a slice follows in time. */
const ALTERNATIONS = 3;
const TIMES = PACES * ALTERNATIONS * 16;

/** A candidate, as far as costs depend on it. */
export type Fingers = Pick<CandidateFingers, 'fingers'>;

/** All fingers for a single key. */
const ALL: readonly Fingers[] = [1, 2, 3, 4, 5].map((finger) => ({ fingers: [finger as Finger] }));

/** The terms of one kind (slice, pair or triple), each with the index of its first weight. */
function termsThat<K extends 'slice' | 'pair' | 'triple'>(kind: K) {
  return TERMS.flatMap((term, nth) => {
    const count: Term[K] = term[kind];
    return count ? [{ count: count as NonNullable<Term[K]>, base: OFFSETS[nth]! }] : [];
  });
}
const SLICE_TERMS = termsThat('slice');
const PAIR_TERMS = termsThat('pair');
const TRIPLE_TERMS = termsThat('triple');

/** Costs of slices, steps (two slices) and chains (three), without depth; those of equal keys are worked out once. */
export class CostTable {
  readonly #plain = new BoundedCache();
  readonly #plainTriples = new BoundedCache();
  readonly #steps = new BoundedCache();
  readonly #chains = new BoundedCache();
  readonly #patterns = new Patterns();
  readonly #total: WeightedSum;

  /** @param weights mm equivalents by feature, `FEATURES` of them */
  constructor(
    private readonly hand: HandModel,
    weights: Float64Array,
  ) {
    this.#total = new WeightedSum(weights);
  }

  slice(view: SliceView, fingers: readonly Finger[], surroundings: Surroundings): number {
    const total = this.#total;
    let sum = 0;
    for (const { count, base } of SLICE_TERMS) {
      total.begin(base, sum);
      count(view, fingers, surroundings, total, this.hand);
      sum = total.sum;
    }
    return toFixedPoint(sum);
  }

  /** Costs of all steps: `[from * view.candidates.length + to]`. Not to be written to. */
  steps(before: SliceView, view: SliceView): Float64Array {
    if (isPlain(before) && isPlain(view)) return this.#plainSteps(before, view);
    const time = timeOf(before, view) * 2 + bit(view.seconds >= SUBSTITUTION_SECONDS);
    const pair = this.#patterns.of(before) * MOST_PATTERNS + this.#patterns.of(view);
    const id = (pair * 2 + bit(isAugmentedSecond(before, view))) * TIMES * 2 + time;
    return this.#steps.get(id) ?? this.#steps.keep(id, this.#heldSteps(before, view));
  }

  /** Costs of all chains: `[(a * second.candidates.length + b) * third.candidates.length + c]`. Not to be written to. */
  chains(first: SliceView, second: SliceView, third: SliceView): Float64Array {
    if (isPlain(first) && isPlain(second) && isPlain(third)) return this.#plainChains(first, second, third);
    const pair = this.#patterns.of(first) * MOST_PATTERNS + this.#patterns.of(second);
    const written = bit(isAugmentedSecond(first, second)) * 2 + bit(isAugmentedSecond(second, third));
    const id = ((pair * MOST_PATTERNS + this.#patterns.of(third)) * 4 + written) * 16 + joinOf(second, third);
    const known = this.#chains.get(id);
    if (known) return known;
    const a = first.candidates;
    const b = second.candidates;
    const c = third.candidates;
    return this.#chains.keep(id, this.triples(first, second, third, a, b, c));
  }

  /** Costs of all steps between these candidates, without what held keys cost: `[from * ofView.length + to]`. */
  pairs(
    before: SliceView,
    view: SliceView,
    ofBefore: readonly Fingers[],
    ofView: readonly Fingers[],
  ): Float64Array {
    const costs = new Float64Array(ofBefore.length * ofView.length);
    const total = this.#total;
    for (const { count, base } of PAIR_TERMS) {
      const found = count(before, view, this.hand);
      if (!found) continue;
      for (let at = 0, first = 0; first < ofBefore.length; first++) {
        const from = ofBefore[first]!.fingers;
        for (let second = 0; second < ofView.length; second++) {
          total.begin(base, costs[at]);
          found.count(from, ofView[second]!.fingers, total);
          costs[at++] = total.sum;
        }
      }
    }
    return toFixedPoints(costs);
  }

  /** Costs of all chains of these candidates: `[(a * ofSecond.length + b) * ofThird.length + c]`. */
  triples(
    first: SliceView,
    second: SliceView,
    third: SliceView,
    ofFirst: readonly Fingers[],
    ofSecond: readonly Fingers[],
    ofThird: readonly Fingers[],
  ): Float64Array {
    const costs = new Float64Array(ofFirst.length * ofSecond.length * ofThird.length);
    const total = this.#total;
    for (const { count, base } of TRIPLE_TERMS) {
      const found = count(first, second, third);
      if (!found) continue;
      for (let at = 0, nth = 0; nth < ofFirst.length; nth++) {
        const a = ofFirst[nth]!.fingers;
        for (let middle = 0; middle < ofSecond.length; middle++) {
          const b = ofSecond[middle]!.fingers;
          for (let last = 0; last < ofThird.length; last++) {
            total.begin(base, costs[at]);
            found.count(a, b, ofThird[last]!.fingers, total);
            costs[at++] = total.sum;
          }
        }
      }
    }
    return toFixedPoints(costs);
  }

  /** Costs of all steps, with what held keys cost that change their finger. */
  #heldSteps(before: SliceView, view: SliceView): Float64Array {
    const costs = this.pairs(before, view, before.candidates, view.candidates);
    let at = 0;
    for (const { fingers: from } of before.candidates) {
      for (const { fingers: to } of view.candidates) costs[at++]! += heldCost(before, view, from, to);
    }
    return costs;
  }

  /** Steps between single keys, which depend on the pitch class left, the interval and how they follow in time. */
  #plainSteps(before: SliceView, view: SliceView): Float64Array {
    const id = ((before.low % 12) * 256 + intervalBetween(before, view) + 128) * TIMES + timeOf(before, view);
    return this.#plain.get(id) ?? this.#plain.keep(id, this.pairs(before, view, ALL, ALL));
  }

  #plainChains(first: SliceView, second: SliceView, third: SliceView): Float64Array {
    const id =
      ((intervalBetween(first, second) + 128) * 256 + intervalBetween(second, third) + 128) * 16 +
      joinOf(second, third);
    const known = this.#plainTriples.get(id);
    return known ?? this.#plainTriples.keep(id, this.triples(first, second, third, ALL, ALL, ALL));
  }
}

/** A number below `TIMES` for how a slice follows in time. */
function timeOf(before: SliceView, view: SliceView): number {
  const { pace, alternation, fresh, onBeat, repeats } = view;
  const time = (pace * ALTERNATIONS + Math.min(before.alternation, alternation)) * 2 + bit(fresh);
  return time * 8 + bit(before.repeats) * 4 + bit(repeats) * 2 + bit(onBeat && strikesAgain(before, view));
}

/** A number below 16 for how the slices of a chain are joined in time. */
function joinOf(second: SliceView, third: SliceView): number {
  const repeats = bit(second.repeats) * 2 + bit(third.repeats);
  return bit(second.fresh || third.fresh) * 8 + bit(third.goesBack) * 4 + repeats;
}

function toFixedPoints(costs: Float64Array): Float64Array {
  for (let at = 0; at < costs.length; at++) costs[at] = toFixedPoint(costs[at]!);
  return costs;
}

function bit(set: boolean): number {
  return set ? 1 : 0;
}

/** One struck key that any finger may play. */
function isPlain(view: SliceView): boolean {
  return view.keys.length === 1 && view.struck[0]! && view.candidates.length === ALL.length;
}

/** mm equivalents of the silent substitutions on held keys: a held key keeps its finger, or changes it where there is time. */
export function heldCost(
  before: SliceView,
  view: SliceView,
  from: readonly Finger[],
  to: readonly Finger[],
): number {
  let cost = 0;
  for (let at = 0; at < to.length; at++) {
    if (view.struck[at]) continue;
    const was = before.keys.indexOf(view.keys[at]!);
    if (was < 0 || from[was] === to[at]) continue;
    cost += view.seconds >= SUBSTITUTION_SECONDS && !from.includes(to[at]!) ? SUBSTITUTION : NO_TIME;
  }
  return cost;
}
