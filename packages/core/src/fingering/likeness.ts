import { runPlaces } from './runs.js';
import { isStep, strideOf } from './terms/term.js';
import { wayOf } from './terms/way.js';
import type { SliceView } from './view.js';

/**
 * How wide the surroundings of a slice are that make up its figure, in slices to either side, and what a slice pays in
 * mm equivalents for being fingered unlike the same figure elsewhere: `given` where the file prints a digit in one of
 * the figure's places, since an editor who prints one means its equals too (common practice), else `free`. A slice pays
 * at every width at which it differs, so that more of the same music around it makes being unlike dearer. At reach 0 the
 * figure is a chord on its very keys, whatever stands around it. Chosen as those with which works held out agree best.
 */
const WIDTHS = [
  { reach: 0, free: 4, given: 16 },
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

/**
 * The same figures have the same intervals, key colours, rhythm and held keys. Where a figure is but a stretch of a run
 * by step, as much of a scale is like much else of it, it is the same only at the same place of the run.
 */
export function figuresOf(views: readonly SliceView[]): readonly Figure[] {
  const shapes = views.map((view) => {
    const keys = view.keys.map(
      (key, at) => `${key - view.low}${view.black[at] ? 'b' : ''}${view.struck[at] ? '' : 'h'}`,
    );
    return { keys: keys.join(','), time: `${view.pace}${view.fresh ? 'f' : ''}` };
  });
  const places = runPlaces(views);
  const ways = views.map((view, at) => stepInto(views[at - 1], view));
  return WIDTHS.flatMap(({ reach, free, given }) => {
    const groups = new Map<string, number[]>();
    views.forEach(({ low, keys }, at) => {
      if (reach === 0 && keys.length < 2) return;
      let figure = reach === 0 ? `${low}|` : '';
      if (isRun(ways.slice(Math.max(0, at - reach + 1), at + reach + 1), 2 * reach)) {
        figure = `${places[at]!.since},${places[at]!.until}|`;
      }
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

/** Direction of a step between single keys, 0 for anything else. */
function stepInto(before: SliceView | undefined, view: SliceView): number {
  if (before?.keys.length !== 1 || view.keys.length !== 1) return 0;
  const way = wayOf(before, view);
  return isStep(strideOf(way)) ? Math.sign(way) : 0;
}

function isRun(ways: readonly number[], steps: number): boolean {
  return steps > 0 && ways.length === steps && ways[0] !== 0 && ways.every((way) => way === ways[0]);
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
