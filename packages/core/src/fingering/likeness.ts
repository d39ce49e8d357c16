import type { SliceView } from './view.js';

/**
 * How wide the surroundings of a slice are that make up its figure, in slices to either side, and what a slice pays in
 * mm equivalents for being fingered unlike the same figure elsewhere: `given` where the file prints a digit in one of
 * the figure's places, since an editor who prints one means its equals too (common practice), else `free`. A slice pays
 * at every width at which it differs, so that more of the same music around it makes being unlike dearer. Chosen as
 * those with which works held out agree best.
 */
const WIDTHS = [
  { reach: 1, free: 3, given: 12 },
  { reach: 2, free: 8, given: 25 },
  { reach: 4, free: 6, given: 10 },
] as const;
/** A digit that the file gives counts as this many chosen ones. */
const GIVEN_VOTES = 100;

/** A figure that comes more than once. */
export interface Figure {
  /** Slices in its middle. */
  readonly slices: readonly number[];
  /** mm equivalents of being unlike. */
  readonly price: number;
}

/** The same figures have the same intervals, key colours, rhythm and held keys. */
export function figuresOf(views: readonly SliceView[]): readonly Figure[] {
  const shapes = views.map((view) => {
    const keys = view.keys.map(
      (key, at) => `${key - view.low}${view.black[at] ? 'b' : ''}${view.struck[at] ? '' : 'h'}`,
    );
    return { keys: keys.join(','), time: `${view.pace}${view.fresh ? 'f' : ''}` };
  });
  return WIDTHS.flatMap(({ reach, free, given }) => {
    const groups = new Map<string, number[]>();
    views.forEach(({ low }, at) => {
      let figure = '';
      for (let other = at - reach; other <= at + reach; other++) {
        const [view, shape] = [views[other], shapes[other]];
        if (!view || !shape) figure += '-|';
        else figure += `${view.low - low}:${shape.keys}:${other > at - reach ? shape.time : ''}|`;
      }
      const group = groups.get(figure);
      if (group) group.push(at);
      else groups.set(figure, [at]);
    });
    return [...groups.values()]
      .filter((slices) => slices.length > 1)
      .map((slices) => ({ slices, price: slices.some((at) => views[at]!.given) ? given : free }));
  });
}

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
  return figures.map(({ slices, price }) => {
    const saved = new Map<string, number>();
    for (const at of slices) {
      const least = through[at]!.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
      views[at]!.candidates.forEach((_, candidate) => {
        const own = Math.max(0, price - (through[at]![candidate]! - least)) * votesOf(views[at]!);
        const fingers = fingersAt(views[at]!, candidate);
        saved.set(fingers, (saved.get(fingers) ?? 0) + own);
      });
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
