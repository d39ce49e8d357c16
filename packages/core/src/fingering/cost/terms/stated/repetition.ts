import type { Finger } from '../../../../score/model.js';
import type { SliceView } from '../../../view/view.js';
import { blocksOf } from '../blocks.js';
import { onlyStruck, type PairCount, type Sink, type Term } from '../term.js';

/** Keystrokes a second that one finger repeats at ease, and those of each pace (`paceOf`): from memory. */
const AT_EASE = 4;
const RATES = [12, 8.5, 6, 4.5, 4, 2, 1] as const;
/** mm equivalents per keystroke a second beyond that: from memory. */
const WEIGHT = 15;

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

/** Keystrokes a second beyond what one finger does at ease, 0 or less where there is time. */
export function excessOf({ pace, fresh }: SliceView): number {
  return fresh ? 0 : RATES[pace] - AT_EASE;
}

/** Whether the one key that is struck was the one struck before. */
export function strikesAgain(before: SliceView, view: SliceView): boolean {
  const was = onlyStruck(before);
  const is = onlyStruck(view);
  return was >= 0 && is >= 0 && before.keys[was] === view.keys[is];
}

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
