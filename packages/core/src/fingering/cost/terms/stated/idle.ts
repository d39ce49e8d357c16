import type { Finger } from '../../../../score/model.js';
import type { SliceView } from '../../../view/view.js';
import { blocksOf } from '../blocks.js';
import { areSingle, type PairCount, type Sink, type Term } from '../term.js';

/** Features: 4 in the place of an idle 3; a step that leaves fingers out. */
const FOURTH = 0;
const LEFT_OUT = 1;
/** mm equivalents, our choice: works held out agree as well with them as without, or better. */
const PRICES = [12, 10] as const;
/** Semitones: 4 and 5 are spread from a third on; what lies further apart than a tone is no step. */
const THIRD = 3;
const TONE = 2;

/**
 * An idle finger that would do with less effort what another does (common practice): in a chord, 4 a third or more from 5
 * while 3 is idle, which spreads from 5 more easily and moves more freely; in a line of single keys, a step in the
 * fingers' order by two fingers other than the thumb that leaves out those between them.
 */
export const idle: Term = {
  name: 'idle finger',
  blocks: blocksOf({ idle: { 'third finger of a chord, fingers left out at a step': 2 } }),
  stated: PRICES,
  slice({ keys }, fingers, _surroundings, sink) {
    const top = fingers.length - 1;
    if (top < 2 || fingers[top] !== 5 || fingers[top - 1] !== 4 || fingers.includes(3)) return;
    if (keys[top]! - keys[top - 1]! >= THIRD) sink.add(FOURTH, 1);
  },
  pair(before, view) {
    if (view.fresh || !areSingle(before, view)) return undefined;
    return isStepBetween(before, view) ? new Step(view.low > before.low) : undefined;
  },
};

function isStepBetween(before: SliceView, view: SliceView): boolean {
  return before.low !== view.low && Math.abs(view.low - before.low) <= TONE;
}

class Step implements PairCount {
  constructor(private readonly up: boolean) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const [low, high] = this.up ? [from[0]!, to[0]!] : [to[0]!, from[0]!];
    if (low > 1 && high - low > 1) sink.add(LEFT_OUT, high - low - 1);
  }
}
