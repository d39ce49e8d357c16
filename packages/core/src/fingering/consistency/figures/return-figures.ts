import type { SliceView } from '../../view/view.js';
import type { Figure } from './figure.js';
import { joins } from './joins.js';

/**
 * mm equivalents for a key that returns under another finger although the hand could have stayed in its place (common
 * practice: a key that the hand covers belongs to the finger above it). What returns after one note is priced by
 * `position`. The number is ours: with it works held out agree best, and passages of `tests/practice` pass most often.
 */
const PRICE = 8;
/**
 * The same in a bar that recurs, where the eye expects one place of the hand (common practice): with it works held out agree
 * better, with half as much again hardly less.
 */
const IN_RECURRING_BAR = 80;
/** Slices within which a key returns: after two other notes or more, up to a bar of eight; in a bar that recurs after one. */
const [LEAST, MOST] = [3, 8] as const;
/** Slices before and after a return that must lie in the same place as well, so that the hand has settled in it. */
const MARGIN = 3;
/** What a hand covers in one place: semitones, and keys at most, a finger for each. */
const SPAN = 12;
const MOST_KEYS = 5;

/**
 * Keys that return while the hand can stay: figures of two slices. From the one to the other, and to the key after it, the
 * hand covers all single keys at once, without a break, and strikes none twice in a row, which changes fingers. Where music
 * recurs on other keys, as in a sequence, the hand has moved along with it, and the key is in a new place.
 *
 * @param sequences slices with the same music around them, on any keys
 * @param recurring slices with the same music before or after them, on the same keys
 */
export function returnFigures(
  views: readonly SliceView[],
  sequences: Iterable<readonly number[]>,
  recurring: Iterable<readonly number[]>,
): readonly Figure[] {
  const moved = movedAlong(views, sequences);
  const recurs = thatRecur(views, recurring);
  const figures: Figure[] = [];
  for (let at = 0; at < views.length; at++) {
    const back = returnOf(views, at);
    if (back === undefined || moved[back]) continue;
    const inRecurringBar = recurs[at] === 1 && recurs[back] === 1 && isSettled(views, at, back);
    if (!inRecurringBar && back - at < LEAST) continue;
    figures.push({
      slices: [at, back],
      before: 0,
      after: 0,
      price: inRecurringBar ? IN_RECURRING_BAR : PRICE,
    });
  }
  return figures;
}

/** Slices of music that recurs. */
function thatRecur(views: readonly SliceView[], recurring: Iterable<readonly number[]>): Uint8Array {
  const recurs = new Uint8Array(views.length);
  for (const slices of recurring) {
    if (slices.length > 1) for (const at of slices) recurs[at] = 1;
  }
  return recurs;
}

/**
 * Whether a return lies within one measure and the notes around it in the same place of the hand, none of them struck twice
 * in a row.
 */
function isSettled(views: readonly SliceView[], at: number, back: number): boolean {
  if (views[at]!.slice.measure !== views[back]!.slice.measure) return false;
  let [first, last] = [at, back];
  while (first > at - MARGIN && joins(views[first - 1], views[first])) first--;
  while (last < back + MARGIN && joins(views[last], views[last + 1])) last++;
  const place = new Place();
  for (let slice = first; slice <= last; slice++) {
    if (!place.covers(views[slice])) return false;
    if (slice > first && views[slice]!.low === views[slice - 1]!.low) return false;
  }
  return true;
}

/** Slices whose like before them lies on another key. */
function movedAlong(views: readonly SliceView[], sequences: Iterable<readonly number[]>): Uint8Array {
  const moved = new Uint8Array(views.length);
  for (const slices of sequences) {
    for (let nth = 1; nth < slices.length; nth++) {
      const [one, other] = [slices[nth - 1]!, slices[nth]!];
      if (views[one]!.low !== views[other]!.low) moved[other] = 1;
    }
  }
  return moved;
}

/** The slice at which a single key returns, if the hand can stay there until the next key, too. */
function returnOf(views: readonly SliceView[], at: number): number | undefined {
  const place = new Place();
  if (!place.covers(views[at])) return undefined;
  for (
    let to = at + 1;
    to <= at + MOST && place.covers(views[to]) && !views[to]!.fresh && !views[to]!.cut;
    to++
  ) {
    if (views[to]!.low === views[to - 1]!.low) return undefined;
    if (views[to]!.low !== views[at]!.low) continue;
    const next = views[to + 1];
    return next?.keys.length !== 1 || place.covers(next) ? to : undefined;
  }
  return undefined;
}

/** The keys that the hand covers in one place. */
class Place {
  readonly #keys: number[] = [];
  #low = Number.POSITIVE_INFINITY;
  #high = Number.NEGATIVE_INFINITY;

  /** Takes in a slice; false where it has not one key, or one too far away or one too many. */
  covers(view: SliceView | undefined): boolean {
    if (view?.keys.length !== 1) return false;
    const { low } = view;
    if (!this.#keys.includes(low)) this.#keys.push(low);
    this.#low = Math.min(this.#low, low);
    this.#high = Math.max(this.#high, low);
    return this.#high - this.#low <= SPAN && this.#keys.length <= MOST_KEYS;
  }
}
