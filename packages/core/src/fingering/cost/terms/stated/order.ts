import type { Finger } from '../../../../score/model.js';
import type { SliceView } from '../../../view/view.js';
import { blocksOf } from '../blocks.js';
import type { PairCount, Sink, Term } from '../term.js';

/** mm equivalents, our choice: with more, fingers hop instead; works held out agree as well with it as without. */
const PRICE = 25;

/**
 * Fingers out of the keys' order beside a held key: a hand that holds a key stays in its place, where no finger passes over
 * or under another (common practice). Counts pairs of a key struck before and one struck now.
 */
export const order: Term = {
  name: 'order',
  blocks: blocksOf({ order: { 'crossed beside a held key': 1 } }),
  stated: [PRICE],
  pair(before, view) {
    return view.struck.includes(false) && view.struck.includes(true) ? new Order(before, view) : undefined;
  },
};

class Order implements PairCount {
  constructor(
    private readonly before: SliceView,
    private readonly view: SliceView,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { before, view } = this;
    for (let is = 0; is < to.length; is++) {
      if (!view.struck[is]) continue;
      for (let was = 0; was < from.length; was++) {
        if (!before.struck[was]) continue;
        if ((view.keys[is]! - before.keys[was]!) * (to[is]! - from[was]!) < 0) sink.add(0, 1);
      }
    }
  }
}
