import { intervalBetween, isStep, strideOf } from '../view/interval.js';
import { type RunPlace, runPlaces } from '../view/runs.js';
import { roughPace, type SliceView } from '../view/view.js';
import type { Figure } from './figure.js';
import { groupBy, Numbers } from './numbers.js';
import { runFigures } from './run-figures.js';

/**
 * A slice's figure is the slice with some slices before and after it. Where the same figure occurs elsewhere, a slice that
 * deviates from the consensus pays a price in mm equivalents: `given` where the file prints a digit in one of these places,
 * since an editor who prints one means the others too (common practice), else `free`. A slice pays at every width at which
 * it deviates, so that the price grows with the amount of music repeated around it. A figure of one slice is a chord, in
 * any octave. Chosen as the numbers with which works held out of the fit agree best.
 */
const FIGURES = [
  { reach: 0, free: 8, given: 16 },
  { reach: 1, free: 3, given: 12 },
  { reach: 2, free: 8, given: 25 },
  { reach: 4, free: 6, given: 10 },
] as const;

/**
 * The same keys after the same slices, or before the same: bars that recur are fingered alike up to their last note,
 * whatever follows (common practice). Works held out agree a little less with this price, equal bars come out equal.
 */
const ON_THE_SAME_KEYS = { reach: 4, free: 15, given: 15 } as const;
const WIDEST = 4;

/** Stands for what lies before the first slice or after the last. */
const NOTHING = 0;
/** More than any key's number. */
const MOST_KEYS = 256;
/** Semitones: places in a run reach from an octave below to an octave above. */
const OCTAVE = 12;

/**
 * The figures that recur: with the same intervals, key colours, rhythm and held keys. Much of a scale looks like the rest
 * of it, so that a figure within a run by step recurs only at the same place of such a run.
 */
export function figuresOf(views: readonly SliceView[]): readonly Figure[] {
  const context = new FigureContext(views);
  const figures: Figure[] = [];
  const add = (groups: Iterable<readonly number[]>, free: number, given: number): void => {
    for (const slices of groups) {
      if (slices.length > 1) figures.push({ slices, price: anyGiven(views, slices) ? given : free });
    }
  };
  for (const { reach, free, given } of FIGURES) {
    add(reach === 0 ? context.chords() : context.around(reach), free, given);
  }
  const { reach, free, given } = ON_THE_SAME_KEYS;
  add(context.led(reach), free, given);
  add(context.leading(reach), free, given);
  return [...figures, ...runFigures(views)];
}

function anyGiven(views: readonly SliceView[], slices: readonly number[]): boolean {
  for (const at of slices) if (views[at]!.given) return true;
  return false;
}

/** Numbers what lies around all slices: equal contexts have equal numbers. */
class FigureContext {
  readonly #numbers = new Numbers();
  readonly #shapes: number[] = [];
  /** By reach and slice: the slice with as many before it, and what follows it. */
  readonly #before: number[][];
  readonly #after: number[][];
  readonly #runs: readonly number[];
  readonly #places: readonly RunPlace[];

  constructor(private readonly views: readonly SliceView[]) {
    const numbers = this.#numbers;
    this.#runs = stepsInARow(views);
    this.#places = runPlaces(views);
    const links: number[] = [];
    for (let at = 0; at < views.length; at++) {
      const view = views[at]!;
      const shape = numbers.of(shapeOf(view));
      this.#shapes.push(shape);
      links.push(numbers.ofTwo(shape, linkTo(views[at - 1] ?? view, view)));
    }
    this.#before = [this.#shapes];
    this.#after = [views.map(() => NOTHING)];
    for (let reach = 1; reach <= WIDEST; reach++) {
      const [shorter, following] = [this.#before[reach - 1]!, this.#after[reach - 1]!];
      this.#before.push(views.map((_, at) => numbers.ofTwo(shorter[at - 1] ?? NOTHING, links[at]!)));
      this.#after.push(
        views.map((_, at) => numbers.ofTwo(links[at + 1] ?? NOTHING, following[at + 1] ?? NOTHING)),
      );
    }
  }

  chords(): Iterable<readonly number[]> {
    return groupBy(this.views, ({ keys, low }, at) =>
      keys.length > 1 ? this.#numbers.ofTwo(this.#shapes[at]!, low % OCTAVE) : undefined,
    );
  }

  around(reach: number): Iterable<readonly number[]> {
    return groupBy(this.views, (_, at) => {
      const figure = this.#numbers.ofTwo(this.#before[reach]![at]!, this.#after[reach]![at]!);
      const inRun = (this.#runs[at + reach] ?? 0) >= 2 * reach;
      return this.#numbers.ofTwo(figure, inRun ? placeNumber(this.#places[at]!) : NOTHING);
    });
  }

  led(reach: number): Iterable<readonly number[]> {
    return groupBy(this.views, ({ low }, at) =>
      at < reach ? undefined : this.#numbers.ofTwo(this.#before[reach]![at]!, low),
    );
  }

  leading(reach: number): Iterable<readonly number[]> {
    return groupBy(this.views, ({ low }, at) =>
      at + reach >= this.views.length
        ? undefined
        : this.#numbers.ofTwo(this.#numbers.ofTwo(this.#shapes[at]!, this.#after[reach]![at]!), low),
    );
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
  return (low - before.low + MOST_KEYS) * 8 + roughPace(pace) * 2 + (fresh ? 1 : 0);
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
