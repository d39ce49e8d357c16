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

/** A figure that comes more than once. */
export interface Figure {
  /** Slices in its middle. */
  readonly slices: readonly number[];
  /** mm equivalents of being unlike. */
  readonly price: number;
}

/** Stands for a slice before the first or after the last. */
const NOTHING = 0;
/** More than all numbers that are given out: two of them make one exact number. */
const MANY = 2 ** 26;
/** More than any key's number. */
const MOST_KEYS = 256;
/** Semitones: places in a run reach from an octave below to an octave above. */
const OCTAVE = 12;

/** Numbers things from 1: equal things have equal numbers. */
class Numbers {
  readonly #known = new Map<string | number, number>();

  of(thing: string | number): number {
    let number = this.#known.get(thing);
    if (number === undefined) {
      number = this.#known.size + 1;
      this.#known.set(thing, number);
    }
    return number;
  }

  ofTwo(first: number, second: number): number {
    return this.of(first * MANY + second);
  }
}

/**
 * The same figures have the same intervals, key colours, rhythm and held keys. Where a figure is but a stretch of a run
 * by step, as much of a scale is like much else of it, it is the same only at the same place of the run.
 */
export function figuresOf(views: readonly SliceView[]): readonly Figure[] {
  const numbers = new Numbers();
  const shapes = views.map((view) => numbers.of(shapeOf(view)));
  const links = views.map((view, at) => numbers.ofTwo(shapes[at]!, linkTo(views[at - 1] ?? view, view)));
  const runs = stepsInARow(views);
  const places = runPlaces(views).map(
    ({ since, until }) => 1 + (since + OCTAVE) * (2 * OCTAVE + 1) + until + OCTAVE,
  );
  /** By slice: the figure around it, as far as the width before reached. */
  let around: readonly number[] = views.map(() => NOTHING);
  let within = 0;
  return WIDTHS.flatMap(({ reach, free, given }) => {
    const groups = new Map<number, number[]>();
    around = views.map((view, at) => {
      if (reach === 0) return view.keys.length > 1 ? numbers.ofTwo(shapes[at]!, view.low) : NOTHING;
      let figure = shapes[at - reach] ?? NOTHING;
      const add = (other: number): void => {
        figure = numbers.ofTwo(figure, links[other] ?? NOTHING);
      };
      for (let other = at - reach + 1; other <= at - within; other++) add(other);
      if (within > 0) figure = numbers.ofTwo(figure, around[at]!);
      for (let other = at + within + 1; other <= at + reach; other++) add(other);
      return figure;
    });
    within = reach;
    around.forEach((figure, at) => {
      if (figure === NOTHING) return;
      const inRun = reach > 0 && (runs[at + reach] ?? 0) >= 2 * reach;
      const own = numbers.ofTwo(figure, inRun ? places[at]! : NOTHING);
      const group = groups.get(own);
      if (group) group.push(at);
      else groups.set(own, [at]);
    });
    return [...groups.values()]
      .filter((slices) => slices.length > 1)
      .map((slices) => ({ slices, price: slices.some((at) => views[at]!.given) ? given : free }));
  });
}

function shapeOf({ keys, low, black, struck }: SliceView): string {
  let shape = '';
  for (let at = 0; at < keys.length; at++) {
    shape += `${keys[at]! - low}${black[at] ? 'b' : ''}${struck[at] ? '' : 'h'},`;
  }
  return shape;
}

/** How a slice follows the one before, as a number. */
function linkTo(before: SliceView, { low, pace, fresh }: SliceView): number {
  return (low - before.low + MOST_KEYS) * 8 + pace * 2 + (fresh ? 1 : 0);
}

/** By slice: how many steps in one direction between single keys, without a turn, lead there last. */
function stepsInARow(views: readonly SliceView[]): readonly number[] {
  let [row, direction] = [0, 0];
  return views.map((view, at) => {
    const way = stepInto(views[at - 1], view);
    row = way === 0 ? 0 : way === direction ? row + 1 : 1;
    direction = way;
    return row;
  });
}

/** Direction of a step between single keys, 0 for anything else. */
function stepInto(before: SliceView | undefined, view: SliceView): number {
  if (before?.keys.length !== 1 || view.keys.length !== 1) return 0;
  const way = wayOf(before, view);
  return isStep(strideOf(way)) ? Math.sign(way) : 0;
}
