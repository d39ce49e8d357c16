import { rounded } from '../numeric/fixed-point.js';
import type { NextBest } from '../options/report.js';
import type { Finger } from '../score/model.js';
import type { Objective } from './cost/objective.js';
import { leastCostsThrough } from './search/backward.js';
import { Search } from './search/forward.js';

/**
 * A second choice is worth printing where the best fingering of the whole line that uses it costs at most this much more,
 * in mm equivalents of sideways hand travel: a third of a white key's width. Chosen by hand so that about one note in
 * fourteen has one in the scores that the weights were fitted on; not measured on other scores.
 */
const SECOND_CHOICE_MARGIN = 8;

/** By slice, by the slice's struck keys. */
type ByKey<T> = readonly (readonly T[])[];

/**
 * For every struck key the other fingers within the margin, cheapest first, of equal ones the lower finger.
 *
 * @param path the least choice for this objective
 * @param most greatest number of second choices for one key
 */
export function secondChoices(
  objective: Objective,
  path: readonly number[],
  most: number,
): ByKey<readonly Finger[]> {
  return others(objective, path, SECOND_CHOICE_MARGIN).map((keys) =>
    keys.map((own) => own.slice(0, most).map(({ finger }) => finger)),
  );
}

/**
 * For every struck key the cheapest other finger, of equal ones the lower; null where the hand has no other one.
 *
 * @param objectives each of which the path is the least choice for: beside a repeat or jump each pins the fingers of one side
 */
export function nextFingers(
  objectives: readonly Objective[],
  path: readonly number[],
): ByKey<NextBest | null> {
  const [first, ...more] = objectives.map((objective) => others(objective, path, Number.POSITIVE_INFINITY));
  return first!.map((keys, at) =>
    keys.map((own, nth) => {
      const found = [own, ...more.map((slices) => slices[at]![nth]!)].flatMap(([next]) => next ?? []);
      return found.reduce<NextBest | null>(
        (best, next) => (best && best.cost <= next.cost ? best : next),
        null,
      );
    }),
  );
}

/** For every struck key the other fingers that cost at most so much more, cheapest first, of equal ones the lower. */
function others(objective: Objective, path: readonly number[], margin: number): ByKey<readonly NextBest[]> {
  const search = new Search();
  const { cost: least } = search.find(objective);
  const through = leastCostsThrough(objective, search, least + margin);
  return objective.views.map((view, at) => {
    const costs = through[at]!;
    const chosen = view.candidates[path[at]!]!.fingers;
    const found = new Array<readonly NextBest[]>(view.slice.struck.length).fill([]);
    view.keys.forEach((_, nth) => {
      if (!view.struck[nth]) return;
      const extra = new Map<Finger, number>();
      view.candidates.forEach(({ fingers }, candidate) => {
        const cost = costs[candidate]! - costs[path[at]!]!;
        const finger = fingers[nth]!;
        if (
          finger !== chosen[nth] &&
          cost <= margin &&
          cost < (extra.get(finger) ?? Number.POSITIVE_INFINITY)
        ) {
          extra.set(finger, cost);
        }
      });
      found[view.source[nth]!] = [...extra]
        .sort((a, b) => a[1] - b[1] || a[0] - b[0])
        .map(([finger, cost]) => ({ finger, cost: rounded(cost) }));
    });
    return found;
  });
}
