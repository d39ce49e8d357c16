import { consistentChoice } from '#core/fingering/consistency/settle.js';
import { DEPTH_WEIGHT, DepthGrid } from '#core/fingering/cost/depth.js';
import { LineCosts } from '#core/fingering/cost/line-costs.js';
import { Objective } from '#core/fingering/cost/objective.js';
import { CostTable } from '#core/fingering/cost/slice-costs.js';
import { judging } from '#core/fingering/cost/weights.js';
import type { SliceView } from '#core/fingering/view/view.js';
import type { Criterion } from '#core/options/options.js';
import { HAND, type Sample } from './data.js';

/** Hits and digits by work. */
export type Tally = Map<string, [hits: number, digits: number]>;

function count(into: Tally, name: string, hit: boolean): void {
  const entry = into.get(name) ?? [0, 0];
  entry[1]++;
  if (hit) entry[0]++;
  into.set(name, entry);
}

/** What the hand plays at a slice, roughly. */
function textureOf(view: SliceView, before: SliceView | undefined): string {
  if (view.struck.includes(false)) return 'under or over held keys';
  if (view.keys.length > 2) return 'chord of three or more';
  if (view.keys.length === 2) {
    const span = view.high - view.low;
    return span <= 4 ? 'pair: third or less' : span <= 9 ? 'pair: fourth to sixth' : 'pair: wider';
  }
  if (!before || view.fresh) return 'single: after a break';
  if (before.keys.length > 1) return 'single: after a chord';
  const interval = Math.abs(view.low - before.low);
  if (interval === 0) return 'single: repeated';
  return interval <= 2 ? 'single: step' : interval <= 9 ? 'single: third to sixth' : 'single: wider';
}

/** Compares the search's digits with the editors', by work and, where asked, by texture. */
export function tally(
  samples: readonly Sample[],
  weights: Float64Array,
  measure: Criterion,
  into: Tally,
  textures?: Tally,
): Tally {
  const costs = new CostTable(HAND, judging(measure, weights));
  const grid = new DepthGrid(HAND, DEPTH_WEIGHT);
  for (const { work, views, surroundings, digits } of samples) {
    const { path } = consistentChoice(new Objective(new LineCosts(views, surroundings, costs, grid)));
    views.forEach((view, at) => {
      const { fingers } = view.candidates[path[at]!]!;
      digits[at]!.forEach((own, key) => {
        for (const digit of own) {
          count(into, work, fingers[key] === digit);
          if (textures) count(textures, textureOf(view, views[at - 1]), fingers[key] === digit);
        }
      });
    });
  }
  return into;
}

const LEAST_DIGITS = 40;

/** Mean over works with 40 or more digits, and over all digits. */
export function summary(found: Tally): { macro: number; micro: number } {
  const works = [...found.values()].filter(([, digits]) => digits >= LEAST_DIGITS);
  const all = [...found.values()];
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  return {
    macro: sum(works.map(([hits, digits]) => hits / digits)) / works.length,
    micro: sum(all.map(([hits]) => hits)) / sum(all.map(([, digits]) => digits)),
  };
}
