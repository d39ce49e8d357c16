import type { Finger } from '../../../../score/model.js';
import { excessOf, onlyStruck, strikesAgain } from '../../../view/struck.js';
import { blocksOf } from '../blocks.js';
import type { PairCount, Sink, Term } from '../term.js';

/** mm equivalents per keystroke a second beyond what one finger repeats at ease: from memory. */
const WEIGHT = 17;

/**
 * One finger that strikes one key again faster than it does at ease: fast repetition changes fingers (common practice).
 * Chords have no fingers to change to.
 */
export const repetition: Term = {
  name: 'repetition',
  blocks: blocksOf({ excess: { 'keystrokes a second': 1 } }),
  stated: [WEIGHT],
  pair(before, view) {
    const excess = excessOf(view);
    if (excess <= 0 || !strikesAgain(before, view)) return undefined;
    return new Repetition(onlyStruck(before), onlyStruck(view), excess);
  },
};

class Repetition implements PairCount {
  constructor(
    private readonly was: number,
    private readonly is: number,
    private readonly excess: number,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    if (from[this.was] === to[this.is]) sink.add(0, this.excess);
  }
}
