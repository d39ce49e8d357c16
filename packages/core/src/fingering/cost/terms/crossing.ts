import type { Finger } from '../../../score/model.js';
import { areSingle, colour, type PairCount, type Sink, type Term } from './term.js';

/** Feature of long fingers that cross each other. */
export const OVERLAP = 8;
/** Feature of the special case, with the longer finger on a black key. */
export const OVERLAP_ON_BLACK = 9;

/**
 * Crossings between neighbouring single keys. Features 0-7: the thumb passes behind a finger (0-3) or a finger passes
 * over the thumb (4-7), by the colours of the key left and the key reached; 8: long fingers cross each other; 9: they
 * do so with the longer finger on a black key, the stated special case of chromatic passages (common practice).
 */
export const crossing: Term = {
  name: 'crossing',
  size: 10,
  pair(before, view) {
    const interval = view.low - before.low;
    if (view.fresh || interval === 0 || !areSingle(before, view)) return undefined;
    return new Crossings(interval, before.black[0]!, view.black[0]!);
  },
};

class Crossings implements PairCount {
  constructor(
    /** Semitones from the first key to the second, up positive. */
    private readonly interval: number,
    private readonly fromBlack: boolean,
    private readonly toBlack: boolean,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { interval, fromBlack, toBlack } = this;
    const [a, b] = [from[0]!, to[0]!];
    if (a === b || interval > 0 === b > a) return;
    const colours = colour(fromBlack) * 2 + colour(toBlack);
    if (b === 1) sink.add(colours, 1);
    else if (a === 1) sink.add(4 + colours, 1);
    else {
      const longer = Math.abs(a - 3) < Math.abs(b - 3) ? fromBlack : toBlack;
      sink.add(longer && Math.abs(interval) <= 2 ? OVERLAP_ON_BLACK : OVERLAP, 1);
    }
  }
}
