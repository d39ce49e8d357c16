import type { Finger } from '../../../../score/model.js';
import { excessOf, onlyStruck, strikesAgain } from '../../../view/struck.js';
import { blocksOf } from '../blocks.js';
import type { PairCount, Sink, Term, TripleCount } from '../term.js';

/** Features: a change away from the thumb off the beat; one between thumb and 5; a change before or after none. */
const AWAY = 0;
const ACROSS = 1;
const MIXED = 2;
/** mm equivalents: from memory. */
const PRICES = [100, 60, 40] as const;

/**
 * Fingers that change on a key struck three times or more, faster than one finger does at ease, go towards the thumb and
 * begin anew on the beat (common practice), and change at every stroke or never. No hand goes from the thumb to 5, or back,
 * on a key struck again as fast.
 */
export const change: Term = {
  name: 'finger change',
  blocks: blocksOf({ change: { 'away from the thumb off the beat, between 1 and 5, now and then': 3 } }),
  stated: PRICES,
  pair(before, view) {
    if (excessOf(view) <= 0 || !strikesAgain(before, view)) return undefined;
    return new Change(onlyStruck(before), onlyStruck(view), view.repeats && !view.onBeat);
  },
  triple(first, second, third) {
    return second.repeats && third.repeats ? new Mixing([first, second, third].map(onlyStruck)) : undefined;
  },
};

class Mixing implements TripleCount {
  /** @param struck index of the key by slice */
  constructor(private readonly struck: readonly number[]) {}

  count(a: readonly Finger[], b: readonly Finger[], c: readonly Finger[], sink: Sink): void {
    const [first, second, third] = this.struck;
    if ((a[first!] === b[second!]) !== (b[second!] === c[third!])) sink.add(MIXED, 1);
  }
}

class Change implements PairCount {
  constructor(
    private readonly was: number,
    private readonly is: number,
    private readonly inGroup: boolean,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const a = from[this.was]!;
    const b = to[this.is]!;
    if (this.inGroup && a < b) sink.add(AWAY, 1);
    if (Math.abs(b - a) === 4) sink.add(ACROSS, 1);
  }
}
