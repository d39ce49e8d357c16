import type { HandModel } from '../../../anatomy/hand.js';
import { WHITE_WIDTH } from '../../../keyboard/key-plan.js';
import type { Finger } from '../../../score/model.js';
import { roughPace, type SliceView } from '../../view/view.js';
import { blocksOf } from './blocks.js';
import type { PairCount, Sink, Term } from './term.js';

/** Where the tips of a hand over five neighbouring white keys lie, mm from the tip of 3 (common practice). */
const PLACE = [-2, -1, 0, 1, 2].map((step) => step * WHITE_WIDTH);

/** Feature of a fresh start. */
const FRESH = 3;

/** Sideways place of the hand, mm: where the tip of 3 lies, averaged over what each finger on its key implies. */
function handPlace(view: SliceView, fingers: readonly Finger[], hand: HandModel): number {
  let sum = 0;
  for (let at = 0; at < fingers.length; at++) sum += view.x[at]! - PLACE[fingers[at]! - 1]! * hand.scale;
  return fingers.length === 0 ? 0 : sum / fingers.length;
}

/**
 * Sideways travel of the hand in mm beyond what the fingers span by themselves. Features by pace: fast, moderate, slow,
 * and a fresh start, where the hand is free to go.
 */
export const travel: Term = {
  name: 'travel',
  blocks: blocksOf({ mm: { 'fast, moderate, slow, fresh start': 4 } }),
  pair(before, view, hand) {
    if (before.keys.length === 0 || view.keys.length === 0) return undefined;
    return new Travel(before, view, hand);
  },
};

class Travel implements PairCount {
  constructor(
    private readonly before: SliceView,
    private readonly view: SliceView,
    private readonly hand: HandModel,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { before, view, hand } = this;
    const mm = Math.abs(handPlace(view, to, hand) - handPlace(before, from, hand));
    sink.add(view.fresh ? FRESH : roughPace(view.pace), mm);
  }
}
