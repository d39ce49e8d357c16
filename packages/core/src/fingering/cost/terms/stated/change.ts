import type { Finger } from '../../../../score/model.js';
import { blocksOf } from '../blocks.js';
import { onlyStruck, type PairCount, type Sink, type Term } from '../term.js';
import { excessOf, strikesAgain } from './repetition.js';

/**
 * mm equivalents: from memory. At half of it a note repeated sixteen times mixes one finger with two; at half as much again
 * fast repeated notes of `tests/practice` pass less often.
 */
const WEIGHT = 20;

/**
 * Fingers that change on a key repeated faster than one finger does at ease go towards the thumb and begin anew on the beat
 * (common practice): a change away from the thumb off the beat.
 */
export const change: Term = {
  name: 'finger change',
  blocks: blocksOf({ 'away from the thumb': { 'off the beat': 1 } }),
  stated: [WEIGHT],
  pair(before, view) {
    if (view.onBeat || excessOf(view) <= 0 || !strikesAgain(before, view)) return undefined;
    return new Change(onlyStruck(before), onlyStruck(view));
  },
};

class Change implements PairCount {
  constructor(
    private readonly was: number,
    private readonly is: number,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    if (from[this.was]! < to[this.is]!) sink.add(0, 1);
  }
}
