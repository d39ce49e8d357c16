import { WHITE_WIDTH } from '../../../keyboard/key-plan.js';
import { intervalBetween, isStep, strideOf } from '../../view/interval.js';
import { type RunPlace, runPlaces } from '../../view/runs.js';
import { roughPace, type SliceView } from '../../view/view.js';
import { groupsOf, NONE, Numbers } from './numbers.js';

/** Stands for what lies before the first slice or after the last. */
const NOTHING = NONE;
/** More than any key's number. */
const MOST_KEYS = 256;
/** Semitones: places in a run reach from an octave below to an octave above. */
const OCTAVE = 12;

/** How far apart keys are: in semitones, or in white keys, where a black key counts as the white key below it. */
export type Measure = 'semitones' | 'white keys';

/** What the figures of a line ask of its slices, however they measure. */
export interface Course {
  /** How many strokes of a key repeated fast lead to a slice from the beat. */
  readonly strokes: readonly number[];
  /** How many steps in one direction lead there. */
  readonly runs: readonly number[];
  readonly places: readonly RunPlace[];
}

export function courseOf(views: readonly SliceView[]): Course {
  return { strokes: strokesSinceBeat(views), runs: stepsInARow(views), places: runPlaces(views) };
}

/** Numbers what lies around all slices: equal contexts have equal numbers. */
export class FigureContext {
  readonly #numbers = new Numbers();
  readonly #shapes: number[] = [];
  /** By reach and slice: the slice with as many before it, and what follows it. */
  readonly #before: number[][] = [];
  readonly #after: number[][] = [];

  /** @param widest how many slices to look at on either side */
  constructor(
    private readonly views: readonly SliceView[],
    private readonly course: Course,
    measure: Measure,
    widest: number,
  ) {
    const numbers = this.#numbers;
    const place = measure === 'semitones' ? semitones : whiteKeys;
    const links: number[] = [];
    const nothing: number[] = [];
    for (let at = 0; at < views.length; at++) {
      const view = views[at]!;
      const shape = shapeOf(view, place, numbers);
      const link = linkTo(views[at - 1] ?? view, view, place);
      this.#shapes.push(shape);
      links.push(numbers.ofTwo(shape, numbers.ofTwo(link, course.strokes[at]!)));
      nothing.push(NOTHING);
    }
    this.#before.push(this.#shapes);
    this.#after.push(nothing);
    for (let reach = 1; reach <= widest; reach++) this.#widen(links);
  }

  /** Looks one slice further. */
  #widen(links: readonly number[]): void {
    const numbers = this.#numbers;
    const [shorter, following] = [this.#before.at(-1)!, this.#after.at(-1)!];
    const before: number[] = [];
    const after: number[] = [];
    for (let at = 0; at < links.length; at++) {
      before.push(numbers.ofTwo(shorter[at - 1] ?? NOTHING, links[at]!));
      after.push(numbers.ofTwo(links[at + 1] ?? NOTHING, following[at + 1] ?? NOTHING));
    }
    this.#before.push(before);
    this.#after.push(after);
  }

  /** Slices with the same chord of so many keys, in any octave. */
  chords(fewest: number, most = Number.POSITIVE_INFINITY): Iterable<readonly number[]> {
    const chords: number[] = [];
    for (let at = 0; at < this.views.length; at++) {
      const { keys, low } = this.views[at]!;
      const isOne = keys.length >= fewest && keys.length <= most;
      chords.push(isOne ? this.#numbers.ofTwo(this.#shapes[at]!, low % OCTAVE) : NONE);
    }
    return groupsOf(chords);
  }

  /**
   * Slices with the same music around them. Much of a scale looks like the rest of it, so that a figure within a run by step
   * recurs only at the same place of such a run.
   */
  around(reach: number): Iterable<readonly number[]> {
    const numbers = this.#numbers;
    const { runs, places } = this.course;
    const [before, after] = [this.#before[reach]!, this.#after[reach]!];
    const figures: number[] = [];
    for (let at = 0; at < this.views.length; at++) {
      const figure = numbers.ofTwo(before[at]!, after[at]!);
      const inRun = (runs[at + reach] ?? 0) >= 2 * reach;
      figures.push(numbers.ofTwo(figure, inRun ? placeNumber(places[at]!) : NOTHING));
    }
    return groupsOf(figures);
  }

  /** The same keys after the same slices; the first slice of a measure belongs to what follows. */
  led(reach: number): Iterable<readonly number[]> {
    const before = this.#before[reach]!;
    const figures: number[] = [];
    for (let at = 0; at < this.views.length; at++) {
      const isLed = at >= reach && !this.#startsMeasure(at);
      figures.push(isLed ? this.#numbers.ofTwo(before[at]!, this.views[at]!.low) : NONE);
    }
    return groupsOf(figures);
  }

  /** The same keys before the same slices; the last slice of a measure belongs to what it follows. */
  leading(reach: number): Iterable<readonly number[]> {
    const numbers = this.#numbers;
    const after = this.#after[reach]!;
    const figures: number[] = [];
    for (let at = 0; at < this.views.length; at++) {
      const leads = at + reach < this.views.length && !this.#startsMeasure(at + 1);
      const onward = leads ? numbers.ofTwo(this.#shapes[at]!, after[at]!) : NONE;
      figures.push(leads ? numbers.ofTwo(onward, this.views[at]!.low) : NONE);
    }
    return groupsOf(figures);
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

/** A number for a chord: how far its keys are from the lowest, their colours, which are struck. */
function shapeOf(view: SliceView, place: Place, numbers: Numbers): number {
  const { keys, black, struck } = view;
  let shape = numbers.ofTwo(NOTHING, keys.length);
  for (let at = 0; at < keys.length; at++) {
    const apart = place(view, at) - place(view, 0);
    shape = numbers.ofTwo(shape, (apart * 2 + (black[at] ? 1 : 0)) * 2 + (struck[at] ? 1 : 0));
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
