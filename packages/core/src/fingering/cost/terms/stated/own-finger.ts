import type { Finger } from '../../../../score/model.js';
import { roughPace, type SliceView } from '../../../view/view.js';
import { blocksOf } from '../blocks.js';
import { COVERED } from '../position.js';
import { areSingle, type PairCount, type Sink, type Term, type TripleCount } from '../term.js';

/** Features: one finger on two keys between a key and a chord; before and behind a key to which the hand goes back. */
const CHORD = 0;
const BACK = 1;
/**
 * mm equivalents, our choice. Where editors print both digits of such places in the shared scores, one finger takes two keys
 * in 5 and 2 of 100.
 */
const PRICES = [20, 30] as const;
/** Semitones that a key and a chord span at most. */
const WITH_CHORD = 9;
/** Semitones between the keys around the one to which the hand goes back; editors lead a finger along a step or a leap. */
const [THIRD, FOURTH] = [3, 5] as const;

/**
 * One finger that takes two keys of one place of the hand, where each has a finger of its own (common practice): from a key
 * to a chord around it or back, unless the pace is slow; and where the line turns at a key and goes back to it at once, which
 * keeps the hand over the keys before and behind it.
 */
export const ownFinger: Term = {
  name: 'own finger',
  blocks: blocksOf({ 'one finger on two keys': { 'a key and a chord, around a key that returns': 2 } }),
  stated: PRICES,
  pair(before, view) {
    return isKeyWithChord(before, view) ? new BesideChord(before, view) : undefined;
  },
  triple(first, second, third) {
    return goesBack(first, second, third) ? AROUND : undefined;
  },
};

function isKeyWithChord(before: SliceView, view: SliceView): boolean {
  if (view.fresh || roughPace(view.pace) === 2) return false;
  if (before.struck.includes(false) || view.struck.includes(false)) return false;
  if ((before.keys.length === 1) === (view.keys.length === 1)) return false;
  return Math.max(before.high, view.high) - Math.min(before.low, view.low) <= WITH_CHORD;
}

function goesBack(first: SliceView, second: SliceView, third: SliceView): boolean {
  if (!third.goesBack || second.fresh || third.fresh) return false;
  if (!areSingle(first, second) || !areSingle(second, third)) return false;
  const [there, back] = [second.low - first.low, third.low - second.low];
  const apart = Math.abs(there + back);
  return (
    there * back < 0 &&
    apart >= THIRD &&
    apart <= FOURTH &&
    Math.max(Math.abs(there), Math.abs(back)) <= COVERED
  );
}

class BesideChord implements PairCount {
  constructor(
    private readonly before: SliceView,
    private readonly view: SliceView,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    for (let at = 0; at < to.length; at++) {
      const was = from.indexOf(to[at]!);
      if (was >= 0 && this.before.keys[was] !== this.view.keys[at]) sink.add(CHORD, 1);
    }
  }
}

const AROUND: TripleCount = {
  count(a, _b, c, sink) {
    if (a[0] === c[0]) sink.add(BACK, 1);
  },
};
