import type { Finger } from '../../../score/model.js';
import { onlyStruck } from '../../view/struck.js';
import { type Pace, roughPace, type SliceView } from '../../view/view.js';
import { blocksOf } from './blocks.js';
import type { PairCount, Sink, Term } from './term.js';

/** First of the features of a hop beside a held key. */
const ANCHORED = 3;
/** Features by pace, alone and beside a held key. */
export const FAST_HOPS: readonly number[] = [0, ANCHORED];
export const MODERATE_HOPS: readonly number[] = [1, ANCHORED + 1];
export const SLOW_HOPS: readonly number[] = [2, ANCHORED + 2];
/** Feature of a slide from a black key to the white key beside it. */
export const SLIDE = 6;

/**
 * How often a hop counts from a key that lasts more than 0.8 seconds, from memory: the finger leaves it early by a small
 * share.
 */
const FROM_LONG = 0.7;
const LONG: Pace = 6;

/** Feature of a hop to a slice. */
export function hopInto({ pace }: SliceView, isAlone: boolean): number {
  return (isAlone ? 0 : ANCHORED) + roughPace(pace);
}

/** How often it counts. */
export function hopsInto({ pace }: SliceView): number {
  return pace === LONG ? FROM_LONG : 1;
}

/** From a black key to the white key beside it, where a finger slides instead of hopping (common practice). */
export function isOffBlack(before: SliceView, from: number, view: SliceView, to: number): boolean {
  return before.black[from]! && !view.black[to]! && Math.abs(view.keys[to]! - before.keys[from]!) === 1;
}

/**
 * One finger that plays two different keys in a row without a break: it must leave the first key early. Features by
 * pace, fast, moderate, slow: of single keys, where the whole hand may go along; and beside a key that another finger
 * holds, which keeps the hand where it is.
 */
export const hop: Term = {
  name: 'hop',
  blocks: blocksOf({
    hop: { 'alone, beside a held key': 2, 'fast, moderate, slow': 3 },
    slide: { 'from a black key to the white key beside it': 1 },
  }),
  pair(before, view) {
    const single = onlyStruck(before) >= 0 && view.keys.length === 1;
    if (view.fresh || (!single && !view.struck.includes(false))) return undefined;
    return new Hops(before, view, hopInto(view, single), hopsInto(view));
  },
};

class Hops implements PairCount {
  constructor(
    private readonly before: SliceView,
    private readonly view: SliceView,
    private readonly feature: number,
    private readonly times: number,
  ) {}

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { before, view } = this;
    for (let at = 0; at < to.length; at++) {
      const was = from.indexOf(to[at]!);
      if (was < 0 || !view.struck[at] || before.keys[was] === view.keys[at]) continue;
      if (isOffBlack(before, was, view, at) && to[at]! !== 2) sink.add(SLIDE, 1);
      else sink.add(this.feature, this.times);
    }
  }
}
