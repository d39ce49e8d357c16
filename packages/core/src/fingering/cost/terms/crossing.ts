import type { Finger } from '../../../score/model.js';
import { onlyStruck } from '../../view/struck.js';
import { blocksOf } from './blocks.js';
import { colour, type PairCount, type Sink, type Term } from './term.js';

/** Semitones beyond which the hand leaps rather than crosses. */
const CONNECTED = 12;
/** Features of crossings with the thumb on a black key. */
export const BLACK_THUMB: readonly number[] = [1, 3, 6, 7];
/** Feature of long fingers that cross each other. */
export const OVERLAP = 8;
/** Feature of a crossing by or over 5. */
export const BY_FIFTH = 10;
/** Feature of the special case, with the longer finger on a black key. */
export const OVERLAP_ON_BLACK = 9;

/**
 * Crossings between single keys struck one after the other, beside held keys as well. Features 0-7: the thumb passes behind a finger (0-3) or a finger passes
 * over the thumb (4-7), by the colours of the key left and the key reached; 8: long fingers cross each other; 9: they
 * do so with the longer finger on a black key, the stated special case of chromatic passages (common practice).
 */
export const crossing: Term = {
  name: 'crossing',
  blocks: blocksOf({
    'thumb passes': { 'white, black key left': 2, 'white, black key reached': 2 },
    'over the thumb': { 'white, black key left': 2, 'white, black key reached': 2 },
    others: { 'long fingers, longer one on black, by or over 5': 3 },
  }),
  pair(before, view) {
    const was = onlyStruck(before);
    const is = onlyStruck(view);
    if (view.fresh || was < 0 || is < 0) return undefined;
    const interval = view.keys[is]! - before.keys[was]!;
    return interval === 0 ? undefined : new Crossings(interval, was, is, before.black[was]!, view.black[is]!);
  },
};

class Crossings implements PairCount {
  constructor(
    /** Semitones from the first key to the second, up positive. */
    private readonly interval: number,
    private readonly was: number,
    private readonly is: number,
    private readonly fromBlack: boolean,
    private readonly toBlack: boolean,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { interval, fromBlack, toBlack } = this;
    const a = from[this.was]!;
    const b = to[this.is]!;
    if (a === b || interval > 0 === b > a) return;
    const colours = colour(fromBlack) * 2 + colour(toBlack);
    const fifth = a === 5 || b === 5;
    if (a !== 1 && b !== 1) {
      const longer = Math.abs(a - 3) < Math.abs(b - 3) ? fromBlack : toBlack;
      sink.add(!fifth && longer && Math.abs(interval) <= 2 ? OVERLAP_ON_BLACK : OVERLAP, 1);
    } else if (fifth && Math.abs(interval) <= CONNECTED) sink.add(BY_FIFTH, 1);
    else sink.add(b === 1 ? colours : 4 + colours, 1);
  }
}
