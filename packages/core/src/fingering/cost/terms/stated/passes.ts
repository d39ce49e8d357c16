import type { Finger } from '../../../../score/model.js';
import type { SliceView } from '../../../view/view.js';
import { blocksOf } from '../blocks.js';
import { areSingle, type Sink, type Term, type TripleCount } from '../term.js';

/** mm equivalents, our choice: works held out agree hardly less with it. */
const PRICE = 16;
/** Semitones from one thumb to the next: wider than two steps, no wider than the hand goes along without a leap. */
const NARROWEST = 5;
const WIDEST = 9;

/**
 * The thumb again after one other finger, in a line of single keys that goes on in one direction by more than steps: the
 * hand is carried on for every second note, where an arpeggio has one pass an octave (common practice).
 */
export const passes: Term = {
  name: 'thumb passes',
  blocks: blocksOf({ passes: { 'two notes apart': 1 } }),
  stated: [PRICE],
  triple: (first, second, third) => (goesOn(first, second, third) ? TWO_NOTES_APART : NOTHING),
};

function goesOn(first: SliceView, second: SliceView, third: SliceView): boolean {
  if (second.fresh || third.fresh || !areSingle(first, second) || !areSingle(second, third)) return false;
  const one = second.low - first.low;
  const other = third.low - second.low;
  const semitones = Math.abs(one + other);
  return one * other > 0 && semitones >= NARROWEST && semitones <= WIDEST;
}

const NOTHING: TripleCount = { count: () => undefined };

const TWO_NOTES_APART: TripleCount = {
  count(a: readonly Finger[], b: readonly Finger[], c: readonly Finger[], sink: Sink): void {
    if (a[0] === 1 && b[0] !== 1 && c[0] === 1) sink.add(0, 1);
  },
};
