import type { SliceView } from '../view/view.js';
import type { Figure } from './figure.js';

/**
 * mm equivalents for a key that returns under another finger although the hand could have stayed in its place (common
 * practice: a key that the hand covers belongs to the finger above it). What returns after one note is priced by
 * `position`. The number is ours: with it works held out agree best, and passages of `tests/practice` pass most often.
 */
const PRICE = 8;
/** Slices within which a key returns: after two other notes or more, up to a bar of eight. */
const [LEAST, MOST] = [3, 8] as const;
/** What a hand covers in one place: semitones, and keys at most, a finger for each. */
const SPAN = 12;
const MOST_KEYS = 5;

/**
 * Keys that return while the hand can stay: figures of two slices. From the one to the other, and to the key after it, the
 * hand covers all single keys at once, without a break. Where music recurs on other keys, as in a sequence, the hand has
 * moved along with it, and the key is in a new place.
 *
 * @param sequences slices with the same music around them, on any keys
 */
export function returnFigures(
  views: readonly SliceView[],
  sequences: Iterable<readonly number[]>,
): readonly Figure[] {
  const moved = movedAlong(views, sequences);
  const figures: Figure[] = [];
  for (let at = 0; at < views.length; at++) {
    const back = returnOf(views, at);
    if (back === undefined || back - at < LEAST || moved[back]) continue;
    figures.push({ slices: [at, back], before: 0, after: 0, price: PRICE });
  }
  return figures;
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
