import type { Finger } from '../../../../score/model.js';
import { onlyStruck } from '../../../view/struck.js';
import { blocksOf } from '../blocks.js';
import type { PairCount, Sink, Term } from '../term.js';

/** Features: 4 in the place of an idle 3; a step that leaves fingers out. */
const FOR_THIRD = 0;
const LEFT_OUT = 1;
/** mm equivalents, our choice: works held out agree as well with them as without, or better. */
const PRICES = [32, 10] as const;
/** Semitones from which on 4 and 5 are spread, in a triad and in a larger chord. */
const THIRD = 3;
const FOURTH = 5;
/** Semitones: what lies further apart is no step. */
const TONE = 2;

/**
 * An idle finger that would do with less effort what another does (common practice): in a triad, 4 a third or more from 5
 * while 3 is idle, which spreads from 5 more easily and moves more freely, in larger chords 4 a fourth or more from 5; in a
 * line, beside held keys as well, a step in the fingers' order by two fingers other than the thumb that leaves out those
 * between them.
 */
export const idle: Term = {
  name: 'idle finger',
  blocks: blocksOf({ idle: { 'third finger of a chord, fingers left out at a step': 2 } }),
  stated: PRICES,
  slice({ keys }, fingers, _surroundings, sink) {
    const top = fingers.length - 1;
    if (top < 2 || fingers[top] !== 5 || fingers[top - 1] !== 4 || fingers.includes(3)) return;
    if (keys[top]! - keys[top - 1]! >= (top === 2 ? THIRD : FOURTH)) sink.add(FOR_THIRD, 1);
  },
  pair(before, view) {
    const [was, is] = [onlyStruck(before), onlyStruck(view)];
    if (view.fresh || was < 0 || is < 0) return undefined;
    const interval = view.keys[is]! - before.keys[was]!;
    return interval !== 0 && Math.abs(interval) <= TONE ? new Step(interval > 0, was, is) : undefined;
  },
};

class Step implements PairCount {
  constructor(
    private readonly up: boolean,
    private readonly was: number,
    private readonly is: number,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const [low, high] = this.up ? [from[this.was]!, to[this.is]!] : [to[this.is]!, from[this.was]!];
    if (low > 1 && high - low > 1) sink.add(LEFT_OUT, high - low - 1);
  }
}
