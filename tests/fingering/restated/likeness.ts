import type { SliceView } from '#core/fingering/view/view.js';
import { barsAlike, FAST, MODERATE } from './bars.js';
import { returnsInOpenChords } from './open-chords.js';
import { comesBack, isSettled, RECURRING, RETURN } from './returns.js';
import { stroke } from './strokes.js';

/*
 * Consistency, stated once more from its description and nothing else, to judge the library's own: it compares written-out
 * figures slice by slice, where the library numbers them.
 */

/** Slices that stand in one place of a figure's occurrences, and mm equivalents that each pays for other fingers. */
interface Alike {
  readonly slices: readonly number[];
  /** Slices of an occurrence before and after that place. */
  readonly before: number;
  readonly after: number;
  readonly price: number;
}

/** By slices on either side: mm equivalents, where the file gives no digit of the figure and where it gives one. */
const WIDTHS = [
  { width: 1, free: 3, given: 12 },
  { width: 2, free: 8, given: 25 },
  { width: 4, free: 6, given: 10 },
];
/** A chord by itself, of two keys and of more. */
const PAIR = { free: 8, given: 16 };
const CHORD = { free: 28, given: 36 };
/** The same keys after the same four slices, or before the same four. */
const SAME_KEYS = { width: 4, price: 15 };
/** The same on other white keys: intervals counted in white keys, a black key as the one below it. */
const SEQUENCE = { width: 4, free: 10, given: 30 };
/** A note within a run of at least seven single keys, by pitch class, those of its two neighbours and those of the run's ends. */
const RUN = { notes: 7, price: 19 };
/** Two keys that are struck again at once, without a break. */
const AGAIN = { price: 10 };
/** A digit that the file gives counts as many votes. */
const GIVEN_VOTES = 100;
/** Seconds of rest that end a run. */
const REST = 0.5;

const single = (view: SliceView | undefined): view is SliceView => view?.keys.length === 1;
const pitchClass = (key: number): number => key % 12;

/** Number of a key, from which intervals are counted. */
type Counted = (key: number) => number;
const bySemitones: Counted = (key) => key;
/** White keys up to and with a key. */
const byWhiteKeys: Counted = (key) => {
  const whites = [0, 2, 4, 5, 7, 9, 11];
  return Math.floor(key / 12) * 7 + whites.filter((white) => white <= pitchClass(key)).length;
};

/** The notes of a slice from the lowest up, with their colours, and whether they are struck or held. */
function shape({ keys, black, struck }: SliceView, number = bySemitones): string {
  return keys
    .map(
      (key, nth) =>
        `${number(key) - number(keys[0]!)}${black[nth] ? ' black' : ''}${struck[nth] ? '' : ' held'}`,
    )
    .join(' + ');
}

/** How a slice follows the one before: interval, pace and whether the hand starts afresh. */
function following(before: SliceView, view: SliceView, number: Counted): string {
  const pace = view.seconds <= FAST + 1e-9 ? 'fast' : view.seconds <= MODERATE + 1e-9 ? 'moderate' : 'slow';
  return `${number(view.keys[0]!) - number(before.keys[0]!)} ${pace}${view.fresh ? ' fresh' : ''}`;
}

/** Everything from one slice to another, both included. */
function written(views: readonly SliceView[], from: number, to: number, number = bySemitones): string {
  let text = shape(views[from]!, number);
  for (let at = from + 1; at <= to; at++)
    text += ` | ${following(views[at - 1]!, views[at]!, number)}, stroke ${stroke(views, at)}: ${shape(views[at]!, number)}`;
  return text;
}

/** Direction of a step between single keys: a second, or an augmented second by the notes on the staff. */
function step(before: SliceView | undefined, view: SliceView | undefined): number {
  if (!single(before) || !single(view)) return 0;
  const semitones = view.keys[0]! - before.keys[0]!;
  const staff = (view.diatonic ?? Number.NaN) - (before.diatonic ?? Number.NaN);
  const isStep = Math.abs(semitones) <= 2 || (Math.abs(semitones) === 3 && Math.abs(staff) === 1);
  return isStep ? Math.sign(semitones) : 0;
}

/** Whether single keys go by step in one direction from one slice to another. */
function isScale(views: readonly SliceView[], from: number, to: number): boolean {
  const direction = step(views[from], views[from + 1]);
  if (direction === 0) return false;
  for (let at = from + 1; at <= to; at++) if (step(views[at - 1], views[at]) !== direction) return false;
  return true;
}

/** Where the highest keys go on from one slice to the next, 0 where they do not or a rest or a cut lies between. */
function onward(views: readonly SliceView[], at: number): number {
  const [view, next] = [views[at], views[at + 1]];
  if (!view || !next || view.keys.length === 0 || next.keys.length === 0) return 0;
  return next.cut || next.free > REST ? 0 : Math.sign(next.keys.at(-1)! - view.keys.at(-1)!);
}

/** Semitones from where the run into a slice began and to where the run out of it ends, octaves aside. */
function place(views: readonly SliceView[], at: number): string {
  const top = (slice: number): number => views[slice]!.keys.at(-1)!;
  let [first, last] = [at, at];
  while (first > 0 && onward(views, first - 1) !== 0 && onward(views, first - 1) === onward(views, at - 1))
    first--;
  while (last + 1 < views.length && onward(views, last) !== 0 && onward(views, last) === onward(views, at))
    last++;
  const aside = (semitones: number): number => {
    const size = Math.abs(semitones);
    return Math.sign(semitones) * (size > 12 ? ((size - 1) % 12) + 1 : size);
  };
  return `${aside(top(at) - top(first))} to ${aside(top(last) - top(at))}`;
}

/** First and last slice of the run of single keys in one direction, however wide its intervals, that goes through a slice. */
function runThrough(views: readonly SliceView[], at: number): readonly [number, number] | undefined {
  const way = (nth: number): number => {
    const [before, view] = [views[nth - 1], views[nth]];
    return single(before) && single(view) && !view.fresh ? Math.sign(view.keys[0]! - before.keys[0]!) : 0;
  };
  const direction = way(at);
  if (direction === 0 || way(at + 1) !== direction) return undefined;
  let [first, last] = [at, at];
  while (way(first) === direction) first--;
  while (way(last + 1) === direction) last++;
  return last - first + 1 >= RUN.notes ? [first, last] : undefined;
}

function groups(
  views: readonly SliceView[],
  nameOf: (at: number) => string | undefined,
): readonly (readonly number[])[] {
  const found = new Map<string, number[]>();
  views.forEach((_, at) => {
    const name = nameOf(at);
    if (name !== undefined) found.set(name, [...(found.get(name) ?? []), at]);
  });
  return [...found.values()].filter((slices) => slices.length > 1);
}

/** What a line pays for being unlike itself. */
export class Likeness {
  readonly alike: readonly Alike[];

  constructor(private readonly views: readonly SliceView[]) {
    const last = views.length - 1;
    const alike: Alike[] = [];
    const add = (
      found: readonly (readonly number[])[],
      [before, after]: readonly [number, number],
      free: number,
      given: number,
    ): void => {
      for (const slices of found) {
        const price = slices.some((at) => views[at]!.given) ? given : free;
        alike.push({ slices, before, after, price });
      }
    };
    const chord = (at: number) => `${shape(views[at]!)} on ${pitchClass(views[at]!.keys[0] ?? 0)}`;
    const pair = (at: number) => (views[at]!.keys.length === 2 ? chord(at) : undefined);
    const larger = (at: number) => (views[at]!.keys.length > 2 ? chord(at) : undefined);
    add(groups(views, pair), [0, 0], PAIR.free, PAIR.given);
    add(groups(views, larger), [0, 0], CHORD.free, CHORD.given);
    const figure = (width: number, number: Counted) => (at: number) => {
      const [from, to] = [at - width, at + width];
      if (from < 0 || to > last) return undefined;
      return written(views, from, to, number) + (isScale(views, from, to) ? ` at ${place(views, at)}` : '');
    };
    for (const { width, free, given } of WIDTHS)
      add(groups(views, figure(width, bySemitones)), [width, width], free, given);
    const sequences = groups(views, figure(SEQUENCE.width, byWhiteKeys));
    add(sequences, [SEQUENCE.width, SEQUENCE.width], SEQUENCE.free, SEQUENCE.given);
    const { width, price } = SAME_KEYS;
    const barline = (before: number) => views[before]?.slice.measure !== views[before + 1]?.slice.measure;
    const led = (at: number) =>
      at < width || barline(at - 1) ? undefined : `${views[at]!.keys[0]}: ${written(views, at - width, at)}`;
    const leading = (at: number) =>
      at + width > last || barline(at)
        ? undefined
        : `${views[at]!.keys[0]}: ${written(views, at, at + width)}`;
    const recurring = [groups(views, led), groups(views, leading)];
    add(recurring[0]!, [width, 0], price, price);
    add(recurring[1]!, [0, width], price, price);
    alike.push(...barsAlike(views), ...returnsInOpenChords(views));
    const inRun = (at: number) => {
      const run = runThrough(views, at);
      if (!run) return undefined;
      const sorted = (slices: readonly number[]): string =>
        slices
          .map((nth) => pitchClass(views[nth]!.keys[0]!))
          .sort((a, b) => a - b)
          .join(' and ');
      return `${sorted([at])} between ${sorted([at - 1, at + 1])} in ${sorted(run)}`;
    };
    add(groups(views, inRun), [0, 0], RUN.price, RUN.price);
    // Where the same music was last heard on another key, the hand has moved along with it.
    const movedTo = (at: number): boolean => {
      const own = sequences.find((slices) => slices.includes(at));
      const earlier = own?.[own.indexOf(at) - 1];
      return earlier !== undefined && views[earlier]!.keys[0] !== views[at]!.keys[0];
    };
    views.forEach((_, at) => {
      const back = comesBack(views, at);
      if (back === undefined || movedTo(back)) return;
      const recurs = (nth: number) => recurring.flat().some((slices) => slices.includes(nth));
      const own = recurs(at) && recurs(back) && isSettled(views, at, back) ? RECURRING : RETURN;
      if (back - at >= own.least) add([[at, back]], [0, 0], own.price, own.price);
    });
    const again = (at: number): boolean => {
      const [before, view] = [views[at - 1], views[at]];
      return view?.keys.length === 2 && !view.fresh && before?.keys.join() === view.keys.join();
    };
    views.forEach((_, at) => {
      if (again(at) || !again(at + 1)) return;
      const row = [at];
      while (again(row.at(-1)! + 1)) row.push(row.at(-1)! + 1);
      add([row], [0, 0], AGAIN.price, AGAIN.price);
    });
    this.alike = alike;
  }

  /** mm equivalents that a fingering pays, by the index of every slice's candidate. */
  paid(path: readonly number[]): number {
    const fingers = (at: number): string => this.views[at]!.candidates[path[at]!]!.fingers.join(' ');
    let sum = 0;
    for (const { slices, price } of this.alike) {
      const votes = new Map<string, number>();
      for (const at of slices) {
        votes.set(fingers(at), (votes.get(fingers(at)) ?? 0) + (this.views[at]!.given ? GIVEN_VOTES : 1));
      }
      // Of equal numbers of votes those that come first in the music win: a map keeps the order of its entries.
      const [winner] = [...votes].reduce((best, own) => (own[1] > best[1] ? own : best));
      sum += price * slices.filter((at) => fingers(at) !== winner).length;
    }
    return sum;
  }
}
