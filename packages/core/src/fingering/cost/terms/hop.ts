import type { Finger } from '../../../score/model.js';
import type { SliceView } from '../../view/view.js';
import { areSingle, type PairCount, type Sink, type Term } from './term.js';

/** First of the features of a hop beside a held key. */
const ANCHORED = 3;

/** Sliding from a black key to the white key beside it is no hop (common practice). */
function slides(before: SliceView, from: number, view: SliceView, to: number): boolean {
  return before.black[from]! && !view.black[to]! && Math.abs(view.keys[to]! - before.keys[from]!) === 1;
}

/**
 * One finger that plays two different keys in a row without a break: it must leave the first key early. Features by
 * pace, fast, moderate, slow: of single keys, where the whole hand may go along; and beside a key that another finger
 * holds, which keeps the hand where it is.
 */
export const hop: Term = {
  name: 'hop',
  size: 6,
  pair(before, view) {
    const single = areSingle(before, view);
    if (view.fresh || (!single && !view.struck.includes(false))) return undefined;
    return new Hops(before, view, (single ? 0 : ANCHORED) + view.pace);
  },
};

class Hops implements PairCount {
  constructor(
    private readonly before: SliceView,
    private readonly view: SliceView,
    private readonly feature: number,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { before, view } = this;
    for (let at = 0; at < to.length; at++) {
      const was = from.indexOf(to[at]!);
      if (was < 0 || !view.struck[at] || before.keys[was] === view.keys[at]) continue;
      if (!slides(before, was, view, at)) sink.add(this.feature, 1);
    }
  }
}
