import type { SliceView } from '../../view/view.js';
import type { Figure } from './figure.js';
import { groupsOf, NONE, Numbers } from './numbers.js';

/**
 * mm equivalents that a note in the middle of a run pays for a finger unlike that of the same place in another octave or on
 * the way back: scales and arpeggios are fingered by the octave, up as down (common practice). Chosen as the price with
 * which works held out agree hardly less and the passages of `tests/practice` come out even.
 */
const PRICE = 19;
/** Notes of single keys in one direction that make a run: an arpeggio of two octaves. */
const LEAST_NOTES = 7;
const OCTAVE = 12;

/**
 * The places within runs that recur: the same pitch class between the same two neighbours, in either direction. Only runs
 * between the same two pitch classes are alike: from other keys on, or turning elsewhere, other groups may cost less.
 */
export function runFigures(views: readonly SliceView[]): Figure[] {
  const numbers = new Numbers();
  const runs = runsThrough(views);
  const places: number[] = [];
  for (let at = 0; at < views.length; at++) {
    const ends = runs[at]!;
    if (ends === 0) {
      places.push(NONE);
      continue;
    }
    const neighbours = pitchClasses(views[at - 1]!.low, views[at + 1]!.low);
    places.push(numbers.ofTwo(numbers.ofTwo(ends, neighbours), 1 + (views[at]!.low % OCTAVE)));
  }
  const figures: Figure[] = [];
  for (const slices of groupsOf(places)) {
    if (slices.length > 1) figures.push({ slices, before: 0, after: 0, price: PRICE });
  }
  return figures;
}

/** Two keys' pitch classes, whichever comes first. */
function pitchClasses(one: number, other: number): number {
  const [low, high] = [Math.min(one % OCTAVE, other % OCTAVE), Math.max(one % OCTAVE, other % OCTAVE)];
  return 1 + low * OCTAVE + high;
}

/** By slice: the pitch classes of the ends of the run that goes through it, 0 where none does. */
function runsThrough(views: readonly SliceView[]): readonly number[] {
  const ends = new Array<number>(views.length).fill(0);
  let start = 0;
  for (let at = 1; at <= views.length; at++) {
    const direction = directionInto(views, at);
    if (direction !== 0 && (at - start === 1 || direction === directionInto(views, at - 1))) continue;
    if (at - start >= LEAST_NOTES)
      ends.fill(pitchClasses(views[start]!.low, views[at - 1]!.low), start + 1, at - 1);
    start = direction === 0 ? at : at - 1;
  }
  return ends;
}

/** Of a step between single keys, 0 for anything else. */
function directionInto(views: readonly SliceView[], at: number): number {
  const [before, view] = [views[at - 1], views[at]];
  if (before?.keys.length !== 1 || view?.keys.length !== 1 || view.fresh) return 0;
  return Math.sign(view.low - before.low);
}
