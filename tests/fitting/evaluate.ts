import { alikeChoice } from '../../packages/core/src/fingering/alike.js';
import { CostTable } from '../../packages/core/src/fingering/cost.js';
import { DepthGrid } from '../../packages/core/src/fingering/depth.js';
import { HAND, type Sample } from './data.js';

/** Hits and digits by work. */
export type Tally = Map<string, [hits: number, digits: number]>;

/** Compares the search's digits with the editors'. */
export function tally(
  samples: readonly Sample[],
  weights: Float64Array,
  depthWeight: number,
  into: Tally = new Map(),
): Tally {
  const costs = new CostTable(HAND, weights);
  const grid = new DepthGrid(HAND, depthWeight);
  for (const { work, views, around, digits } of samples) {
    const { path } = alikeChoice(views, around, costs, grid);
    const entry = into.get(work) ?? [0, 0];
    views.forEach((view, at) => {
      const { fingers } = view.candidates[path[at]!]!;
      digits[at]!.forEach((own, key) => {
        for (const digit of own) {
          entry[1]++;
          if (fingers[key] === digit) entry[0]++;
        }
      });
    });
    into.set(work, entry);
  }
  return into;
}

const LEAST_DIGITS = 40;

/** Mean over works with 40 or more digits, and over all digits. */
export function summary(found: Tally): { macro: number; middle: number; micro: number } {
  const works = [...found.values()].filter(([, digits]) => digits >= LEAST_DIGITS);
  const all = [...found.values()];
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  const roots = sum(works.map(([, digits]) => Math.sqrt(digits)));
  return {
    macro: sum(works.map(([hits, digits]) => hits / digits)) / works.length,
    middle: sum(works.map(([hits, digits]) => hits / Math.sqrt(digits))) / roots,
    micro: sum(all.map(([hits]) => hits)) / sum(all.map(([, digits]) => digits)),
  };
}
