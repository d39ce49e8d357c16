import type { SliceView } from '../../view/view.js';
import type { Figure } from './figure.js';
import { joins } from './joins.js';

/**
 * mm equivalents of a key that returns under another finger. Our choice: the shared scores hold hardly any digit of such
 * basses, and works held out agree as well with it as without.
 */
const PRICE = 40;
/** Semitones between neighbours: from a third on, as in a chord, and less than an octave, which the hand leaps. */
const [THIRD, OCTAVE] = [3, 12] as const;
/** Semitones over which the hand opens, at most: an octave and a sixth. */
const WIDEST = 20;
/** Keys of the chord at most, a finger for each. */
const MOST_KEYS = 5;

/**
 * A broken chord wider than an octave, as in the basses of nocturnes: the hand opens and turns about a finger in the middle,
 * so that a key which returns within the measure returns to its finger (common practice).
 */
export function openChordFigures(views: readonly SliceView[]): Figure[] {
  const figures: Figure[] = [];
  let start = 0;
  for (let end = 1; end <= views.length; end++) {
    if (end < views.length && goesOn(views[end - 1]!, views[end]!)) continue;
    if (end - start > 2) figures.push(...returnsWithin(views, start, end));
    start = end;
  }
  return figures;
}

function goesOn(before: SliceView, view: SliceView): boolean {
  const interval = Math.abs(view.low - before.low);
  return (
    joins(before, view) &&
    before.slice.measure === view.slice.measure &&
    interval >= THIRD &&
    interval < OCTAVE
  );
}

/** A figure for every key that returns, where these single keys are an open chord. */
function returnsWithin(views: readonly SliceView[], start: number, end: number): Figure[] {
  const places = new Map<number, number[]>();
  for (let at = start; at < end; at++) {
    const { low } = views[at]!;
    const own = places.get(low);
    if (own) own.push(at);
    else places.set(low, [at]);
  }
  const keys = [...places.keys()];
  const span = Math.max(...keys) - Math.min(...keys);
  if (span <= OCTAVE || span > WIDEST || keys.length > MOST_KEYS) return [];
  return [...places.values()]
    .filter((slices) => slices.length > 1)
    .map((slices) => ({ slices, before: 0, after: 0, price: PRICE }));
}
