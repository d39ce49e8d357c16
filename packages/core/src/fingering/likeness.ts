import type { Figure } from './figures.js';
import type { SliceView } from './view.js';

/** A digit that the file gives counts as this many chosen ones. */
const GIVEN_VOTES = 100;

/** The fingers that every figure should have, as `fingersAt` writes them. */
export type Models = readonly string[];

/** The fingers that most of a figure's slices chose, digits of the file counting most, of equal ones the earliest. */
export function chosenModels(
  views: readonly SliceView[],
  figures: readonly Figure[],
  path: readonly number[],
): Models {
  return figures.map(({ slices }) => {
    const votes = new Map<string, number>();
    for (const at of slices) {
      const fingers = fingersAt(views[at]!, path[at]!);
      votes.set(fingers, (votes.get(fingers) ?? 0) + votesOf(views[at]!));
    }
    return dearest(votes);
  });
}

/**
 * The fingers that would cost a figure's slices least together if each were free to pay the price instead.
 *
 * @param through for every slice and candidate, the cost of the best fingering of the line that uses it
 */
export function cheapestModels(
  views: readonly SliceView[],
  figures: readonly Figure[],
  through: readonly Float64Array[],
): Models {
  const least = through.map((costs) => Math.min(...costs));
  return figures.map(({ slices, price }) => {
    const saved = new Map<string, number>();
    for (const at of slices) {
      const [costs, votes] = [through[at]!, votesOf(views[at]!)];
      for (let candidate = 0; candidate < costs.length; candidate++) {
        const own = Math.max(0, price - (costs[candidate]! - least[at]!)) * votes;
        const fingers = fingersAt(views[at]!, candidate);
        saved.set(fingers, (saved.get(fingers) ?? 0) + own);
      }
    }
    return dearest(saved);
  });
}

function votesOf({ given }: SliceView): number {
  return given ? GIVEN_VOTES : 1;
}

/** The name of the greatest value, of equal ones the first. */
function dearest(values: ReadonlyMap<string, number>): string {
  let [best, most] = ['', Number.NEGATIVE_INFINITY];
  for (const [name, value] of values) if (value > most) [best, most] = [name, value];
  return best;
}

/** What every candidate pays for being unlike the models of its figures; undefined where a slice is in none. */
export function likenessBias(
  views: readonly SliceView[],
  figures: readonly Figure[],
  models: Models,
): readonly (Float64Array | undefined)[] {
  const bias = new Array<Float64Array | undefined>(views.length);
  figures.forEach(({ slices, price }, nth) => {
    for (const at of slices) {
      const { candidates } = views[at]!;
      bias[at] ??= new Float64Array(candidates.length);
      for (let candidate = 0; candidate < candidates.length; candidate++) {
        if (candidates[candidate]!.name !== models[nth]) bias[at]![candidate]! += price;
      }
    }
  });
  return bias;
}

/** What a choice pays for being unlike the models that it chooses itself. */
export function unlikeness(
  views: readonly SliceView[],
  figures: readonly Figure[],
  path: readonly number[],
): number {
  const models = chosenModels(views, figures, path);
  let sum = 0;
  figures.forEach(({ slices, price }, nth) => {
    for (const at of slices) if (fingersAt(views[at]!, path[at]!) !== models[nth]) sum += price;
  });
  return sum;
}

function fingersAt(view: SliceView, choice: number): string {
  return view.candidates[choice]!.name;
}
