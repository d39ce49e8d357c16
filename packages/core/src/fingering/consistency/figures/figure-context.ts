import { WHITE_WIDTH } from '../../../keyboard/key-plan.js';
import { intervalBetween, isStep, strideOf } from '../../view/interval.js';
import { type RunPlace, runPlaces } from '../../view/runs.js';
import { roughPace, type SliceView } from '../../view/view.js';
import { groupBy, Numbers } from './numbers.js';

/** Stands for what lies before the first slice or after the last. */
const NOTHING = 0;
/** More than any key's number. */
const MOST_KEYS = 256;
/** Semitones: places in a run reach from an octave below to an octave above. */
const OCTAVE = 12;

/** How far apart keys are: in semitones, or in white keys, where a black key counts as the white key below it. */
export type Measure = 'semitones' | 'white keys';

/** Numbers what lies around all slices: equal contexts have equal numbers. */
export class FigureContext {
  readonly #numbers = new Numbers();
  readonly #shapes: number[] = [];
  /** By reach and slice: the slice with as many before it, and what follows it. */
  readonly #before: number[][];
  readonly #after: number[][];
  readonly #runs: readonly number[];
  readonly #places: readonly RunPlace[];

  /** @param widest how many slices to look at on either side */
  constructor(
    private readonly views: readonly SliceView[],
    measure: Measure,
    widest: number,
  ) {
    const numbers = this.#numbers;
    const places = measure === 'semitones' ? semitones : whiteKeys;
    const strokes = strokesSinceBeat(views);
    this.#runs = stepsInARow(views);
    this.#places = runPlaces(views);
    const links: number[] = [];
    for (let at = 0; at < views.length; at++) {
      const view = views[at]!;
      const shape = numbers.of(shapeOf(view, places));
      this.#shapes.push(shape);
      const link = linkTo(views[at - 1] ?? view, view, places);
      links.push(numbers.ofTwo(shape, numbers.ofTwo(link, strokes[at]!)));
    }
    this.#before = [this.#shapes];
    this.#after = [views.map(() => NOTHING)];
    for (let reach = 1; reach <= widest; reach++) {
      const [shorter, following] = [this.#before[reach - 1]!, this.#after[reach - 1]!];
      this.#before.push(views.map((_, at) => numbers.ofTwo(shorter[at - 1] ?? NOTHING, links[at]!)));
      this.#after.push(
        views.map((_, at) => numbers.ofTwo(links[at + 1] ?? NOTHING, following[at + 1] ?? NOTHING)),
      );
    }
  }

  /** Slices with the same chord of so many keys, in any octave. */
  chords(has: (keys: number) => boolean): Iterable<readonly number[]> {
    return groupBy(this.views, ({ keys, low }, at) =>
      has(keys.length) ? this.#numbers.ofTwo(this.#shapes[at]!, low % OCTAVE) : undefined,
    );
  }

  /**
   * Slices with the same music around them. Much of a scale looks like the rest of it, so that a figure within a run by step
   * recurs only at the same place of such a run.
   */
  around(reach: number): Iterable<readonly number[]> {
    return groupBy(this.views, (_, at) => {
      const figure = this.#numbers.ofTwo(this.#before[reach]![at]!, this.#after[reach]![at]!);
      const inRun = (this.#runs[at + reach] ?? 0) >= 2 * reach;
      return this.#numbers.ofTwo(figure, inRun ? placeNumber(this.#places[at]!) : NOTHING);
    });
  }

  /** The same keys after the same slices; the first slice of a measure belongs to what follows. */
  led(reach: number): Iterable<readonly number[]> {
    return groupBy(this.views, ({ low }, at) =>
      at < reach || this.#startsMeasure(at) ? undefined : this.#numbers.ofTwo(this.#before[reach]![at]!, low),
    );
  }

  /** The same keys before the same slices; the last slice of a measure belongs to what it follows. */
  leading(reach: number): Iterable<readonly number[]> {
    return groupBy(this.views, ({ low }, at) =>
      at + reach >= this.views.length || this.#startsMeasure(at + 1)
        ? undefined
        : this.#numbers.ofTwo(this.#numbers.ofTwo(this.#shapes[at]!, this.#after[reach]![at]!), low),
    );
  }

  #startsMeasure(at: number): boolean {
    return this.views[at]!.slice.measure !== this.views[at - 1]?.slice.measure;
  }
}

function placeNumber({ since, until }: RunPlace): number {
  return 1 + (since + OCTAVE) * (2 * OCTAVE + 1) + until + OCTAVE;
}

function semitones({ keys }: SliceView, nth: number): number {
  return keys[nth]!;
}

function whiteKeys({ x }: SliceView, nth: number): number {
  return Math.floor(x[nth]! / WHITE_WIDTH);
}

/** Where the nth key of a slice lies. */
type Place = typeof semitones;

function shapeOf(view: SliceView, place: Place): string {
  const { keys, black, struck } = view;
  let shape = '';
  for (let at = 0; at < keys.length; at++) {
    shape += `${place(view, at) - place(view, 0)}${black[at] ? 'b' : ''}${struck[at] ? '' : 'h'},`;
  }
  return shape;
}

/** How a slice follows the one before, as a number. */
function linkTo(before: SliceView, view: SliceView, place: Place): number {
  const between = view.keys.length > 0 && before.keys.length > 0 ? place(view, 0) - place(before, 0) : 0;
  return (between + MOST_KEYS) * 8 + roughPace(view.pace) * 2 + (view.fresh ? 1 : 0);
}

/**
 * By slice: how many strokes of a key repeated fast lead there from the beat, or from the key's first one. Its notes are all
 * alike, and fingers that change on it begin anew on the beat.
 */
function strokesSinceBeat(views: readonly SliceView[]): readonly number[] {
  const strokes: number[] = [];
  for (let at = 0; at < views.length; at++) {
    const { repeats, onBeat } = views[at]!;
    strokes.push(repeats && !onBeat ? strokes[at - 1]! + 1 : 0);
  }
  return strokes;
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
