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

/**
 * For every struck key the other fingers within the margin, cheapest first, of equal ones the lower finger.
 *
 * @param path the least choice for this objective
 * @param most greatest number of second choices for one key
 * @returns by slice, by the slice's struck keys
 */
export function secondChoices(
  objective: Objective,
  path: readonly number[],
  most: number,
): readonly (readonly (readonly Finger[])[])[] {
  const search = new Search();
  const { cost: least } = search.find(objective);
  const through = leastCostsThrough(objective, search, least + SECOND_CHOICE_MARGIN);
  return objective.views.map((view, at) => {
    const costs = through[at]!;
    const chosen = view.candidates[path[at]!]!.fingers;
    const others = new Array<readonly Finger[]>(view.slice.struck.length).fill([]);
    view.keys.forEach((_, nth) => {
      if (!view.struck[nth]) return;
      const extra = new Map<Finger, number>();
      view.candidates.forEach(({ fingers }, candidate) => {
        const cost = costs[candidate]! - costs[path[at]!]!;
        const finger = fingers[nth]!;
        if (finger !== chosen[nth] && cost <= Math.min(SECOND_CHOICE_MARGIN, extra.get(finger) ?? Infinity)) {
          extra.set(finger, cost);
        }
      });
      others[view.source[nth]!] = [...extra]
        .sort((a, b) => a[1] - b[1] || a[0] - b[0])
        .slice(0, most)
        .map(([finger]) => finger);
    });
    return others;
  });
}
