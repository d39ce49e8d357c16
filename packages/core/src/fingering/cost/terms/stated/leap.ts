import type { Finger } from '../../../../score/model.js';
import type { SliceView } from '../../../view/view.js';
import { blocksOf } from '../blocks.js';
import type { PairCount, Sink, Term } from '../term.js';

/** Semitones between two slices that no finger of one reaches from the other without the hand leaping. */
const LEAP = 8;
/** mm equivalents per finger by which the single key is not taken by the outer finger: from memory. */
const WEIGHT = 8;

/**
 * A single key far outside the keys before or after it, such as the bass of a waltz: the outer finger on that side leads
 * the leap, 5 or the thumb (common practice). Counts fingers from there.
 */
export const leap: Term = {
  name: 'leap',
  blocks: blocksOf({ leap: { fingers: 1 } }),
  stated: [WEIGHT],
  pair(before, view) {
    if (before.keys.length === 1 && view.keys.length > 1) return leapFrom(before, view, true);
    if (view.keys.length === 1 && before.keys.length > 1) return leapFrom(view, before, false);
    return undefined;
  },
};

/** @param leads whether the single key comes first */
function leapFrom(single: SliceView, chord: SliceView, leads: boolean): PairCount | undefined {
  if (single.low - chord.high >= LEAP) return new Leap(leads, 5);
  if (chord.low - single.low >= LEAP) return new Leap(leads, 1);
  return undefined;
}

class Leap implements PairCount {
  constructor(
    private readonly leads: boolean,
    private readonly outer: Finger,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const finger = (this.leads ? from : to)[0];
    if (finger !== undefined && finger !== this.outer) sink.add(0, Math.abs(finger - this.outer));
  }
}
