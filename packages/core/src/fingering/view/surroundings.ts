import { intervalBetween, strideOf } from './interval.js';
import { BREAK, type RunPlace, runPlaces } from './runs.js';
import type { SliceView } from './view.js';

/** What the terms of the cost see around a slice. */
export interface Surroundings extends RunPlace {
  /**
   * Semitones that the music goes below and above this slice before it no longer fits in one octave: ahead, behind, and
   * the greater of both.
   */
  readonly ahead: readonly [below: number, above: number];
  readonly behind: readonly [below: number, above: number];
  readonly around: readonly [below: number, above: number];
  /** Number of steps in one direction that lead here and that follow, -6 (falling) ... 6 (rising). */
  readonly ledBy: number;
  readonly leadsTo: number;
  /** Colours of the lowest keys of the slices from two before to two after, a bit each, 1 = black. */
  readonly colours: number;
  /** Strides of the highest keys (`strideOf`) back to the slice before and on to the slice after. */
  readonly strideIn: number;
  readonly strideOut: number;
}

/** Slices that the surroundings take in on either side, and steps of a run that they count. */
const FAR = 6;
/** Semitones that one position of the hand covers at most. */
const OCTAVE = 12;

/** The surroundings of every slice of a line. */
export function surroundingsOf(views: readonly SliceView[]): readonly Surroundings[] {
  const places = runPlaces(views);
  const into = stepsInto(views);
  const from = stepsFrom(into);
  const found: Surroundings[] = [];
  for (let at = 0; at < views.length; at++) {
    const ahead = room(views, at, 1);
    const behind = room(views, at, -1);
    const { since, until } = places[at]!;
    found.push({
      ahead,
      behind,
      around: [Math.max(ahead[0], behind[0]), Math.max(ahead[1], behind[1])],
      ledBy: upToFar(into[at]!),
      leadsTo: upToFar(from[at]!),
      since,
      until,
      colours: coloursAround(views, at),
      strideIn: strideTo(views[at]!, views[at - 1]),
      strideOut: strideTo(views[at]!, views[at + 1]),
    });
  }
  return found;
}

function room(views: readonly SliceView[], at: number, step: 1 | -1): [number, number] {
  const here = views[at]!;
  let { low, high } = here;
  for (let nth = 1; nth <= FAR; nth++) {
    const next = views[at + step * nth];
    if (!next || next.keys.length === 0) break;
    const later = step > 0 ? next : views[at + step * (nth - 1)]!;
    if (later.free > BREAK) break;
    const lower = Math.min(low, next.low);
    const higher = Math.max(high, next.high);
    if (higher - lower > OCTAVE) break;
    low = lower;
    high = higher;
  }
  return [Math.min(OCTAVE, here.low - low), Math.min(OCTAVE, high - here.high)];
}

/** By slice: the signed number of steps of the highest keys in one direction that lead there. */
function stepsInto(views: readonly SliceView[]): readonly number[] {
  const into: number[] = [];
  let row = 0;
  for (let at = 0; at < views.length; at++) {
    const direction = at === 0 ? 0 : Math.sign(views[at]!.high - views[at - 1]!.high);
    row = direction === Math.sign(row) ? row + direction : direction;
    into.push(row);
  }
  return into;
}

/** By slice: the signed number of such steps that follow it. */
function stepsFrom(into: readonly number[]): readonly number[] {
  const from = new Array<number>(into.length).fill(0);
  for (let at = into.length - 2; at >= 0; at--) {
    const direction = Math.sign(into[at + 1]!);
    from[at] = direction === Math.sign(from[at + 1]!) ? from[at + 1]! + direction : direction;
  }
  return from;
}

function upToFar(steps: number): number {
  return Math.max(-FAR, Math.min(FAR, steps));
}

function coloursAround(views: readonly SliceView[], at: number): number {
  let bits = 0;
  for (let bit = 0; bit < 5; bit++) if (views[at + bit - 2]?.black[0]) bits |= 1 << bit;
  return bits;
}

function strideTo(view: SliceView, other: SliceView | undefined): number {
  return strideOf(other && other.keys.length > 0 ? intervalBetween(view, other) : 0);
}
