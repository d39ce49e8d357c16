import { intervalBetween, isStep, strideOf } from '../view/interval.js';
import { type RunPlace, runPlaces } from '../view/runs.js';
import type { SliceView } from '../view/view.js';

/**
 * A slice's figure is the slice with `reach` slices on either side. Where the same figure occurs elsewhere, a slice that
 * deviates from the consensus pays a price in mm equivalents: `given` where the file prints a digit in the middle of one
 * of these figures, since an editor who prints one means the others too (common practice), else `free`. A slice pays at
 * every width at which it deviates, so that the price grows with the amount of music repeated around it. At reach 0 the
 * figure is a chord on the same keys, whatever surrounds it. The numbers are those with which works held out of the fit
 * agree best.
 */
const WIDTHS = [
  { reach: 0, free: 4, given: 16 },
  { reach: 1, free: 3, given: 12 },
  { reach: 2, free: 8, given: 25 },
  { reach: 4, free: 6, given: 10 },
] as const;

/** A figure that occurs more than once. */
export interface Figure {
  /** The slice in the middle of every occurrence. */
  readonly slices: readonly number[];
  /** mm equivalents that a slice pays for deviating from the consensus. */
  readonly price: number;
}

/** Stands for a slice before the first or after the last. */
const NOTHING = 0;
/** More than any number given out by `Numbers`, so that two of them fit into one exact number. */
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
 * The figures that recur: with the same intervals, key colours, rhythm and held keys. Much of a scale looks like the rest
 * of it, so that a figure within a run by step recurs only at the same place of such a run.
 */
export function figuresOf(views: readonly SliceView[]): readonly Figure[] {
  const finder = new FigureFinder(views);
  const figures: Figure[] = [];
  for (const { reach, free, given } of WIDTHS) {
    for (const slices of finder.widen(reach).values()) {
      if (slices.length > 1) figures.push({ slices, price: anyGiven(views, slices) ? given : free });
    }
  }
  return figures;
}

function anyGiven(views: readonly SliceView[], slices: readonly number[]): boolean {
  for (const at of slices) if (views[at]!.given) return true;
  return false;
}

/** Numbers the figures around all slices, from narrow to wide: equal figures get the same number. */
class FigureFinder {
  readonly #numbers = new Numbers();
  readonly #shapes: number[] = [];
  readonly #links: number[] = [];
  readonly #runs: readonly number[];
  readonly #places: readonly RunPlace[];
  /** By slice: the number of its figure at the width asked for last, and that width. */
  #around: readonly number[] = [];
  #within = 0;

  constructor(private readonly views: readonly SliceView[]) {
    this.#runs = stepsInARow(views);
    this.#places = runPlaces(views);
    for (let at = 0; at < views.length; at++) {
      const view = views[at]!;
      const shape = this.#numbers.of(shapeOf(view));
      this.#shapes.push(shape);
      this.#links.push(this.#numbers.ofTwo(shape, linkTo(views[at - 1] ?? view, view)));
    }
  }

  /** Slices by the figure around them; no reach may be less than the one before. */
  widen(reach: number): ReadonlyMap<number, readonly number[]> {
    const groups = new Map<number, number[]>();
    const around: number[] = [];
    for (let at = 0; at < this.views.length; at++) {
      const figure = reach === 0 ? this.#chord(at) : this.#wider(at, reach);
      around.push(figure);
      if (figure === NOTHING) continue;
      const inRun = reach > 0 && (this.#runs[at + reach] ?? 0) >= 2 * reach;
      const own = this.#numbers.ofTwo(figure, inRun ? placeNumber(this.#places[at]!) : NOTHING);
      const group = groups.get(own);
      if (group) group.push(at);
      else groups.set(own, [at]);
    }
    this.#around = around;
    this.#within = reach;
    return groups;
  }

  #chord(at: number): number {
    const { keys, low } = this.views[at]!;
    return keys.length > 1 ? this.#numbers.ofTwo(this.#shapes[at]!, low) : NOTHING;
  }

  #wider(at: number, reach: number): number {
    const within = this.#within;
    let figure = this.#shapes[at - reach] ?? NOTHING;
    for (let other = at - reach + 1; other <= at - within; other++) figure = this.#linked(figure, other);
    if (within > 0) figure = this.#numbers.ofTwo(figure, this.#around[at]!);
    for (let other = at + within + 1; other <= at + reach; other++) figure = this.#linked(figure, other);
    return figure;
  }

  #linked(figure: number, other: number): number {
    return this.#numbers.ofTwo(figure, this.#links[other] ?? NOTHING);
  }
}

function placeNumber({ since, until }: RunPlace): number {
  return 1 + (since + OCTAVE) * (2 * OCTAVE + 1) + until + OCTAVE;
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

/** By slice: how many steps in one direction between single keys lead there. */
function stepsInARow(views: readonly SliceView[]): readonly number[] {
  const rows: number[] = [];
  let [row, direction] = [0, 0];
  for (let at = 0; at < views.length; at++) {
    const step = stepInto(views[at - 1], views[at]!);
    row = step === 0 ? 0 : step === direction ? row + 1 : 1;
    direction = step;
    rows.push(row);
  }
  return rows;
}

/** Direction of a step between single keys, 0 for anything else. */
function stepInto(before: SliceView | undefined, view: SliceView): number {
  if (before?.keys.length !== 1 || view.keys.length !== 1) return 0;
  const interval = intervalBetween(before, view);
  return isStep(strideOf(interval)) ? Math.sign(interval) : 0;
}
