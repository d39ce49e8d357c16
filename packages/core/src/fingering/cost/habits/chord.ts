import type { Finger } from '../../../score/model.js';
import { STRIDES } from '../../view/interval.js';
import type { SliceView } from '../../view/view.js';
import { blocksOf, startsOf } from '../terms/blocks.js';
import type { PairCount, Sink, Term } from '../terms/term.js';
import {
  areSingle,
  colour,
  FINGER_PAIRS,
  FINGER_TRIPLES,
  INTERVALS,
  intervalIndex,
  pairOf,
} from '../terms/term.js';

const GAPS = 18;
const OCTAVE = 12;
const BLOCKS = blocksOf({
  key: { finger: 5, colour: 2, 'struck, held': 2 },
  neighbours: { 'finger pair': FINGER_PAIRS, semitones: GAPS, colours: 4 },
  outer: { 'finger pair': FINGER_PAIRS, semitones: GAPS },
  triad: { fingers: FINGER_TRIPLES, 'wide gaps': 4 },
  'highest keys': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'lowest keys': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'from the nearest key': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'melody around': { 'finger pair': FINGER_PAIRS, 'stride in': STRIDES, 'stride out': STRIDES },
});
const [KEY, NEIGHBOURS, OUTER, TRIAD, HIGH, LOW, NEAREST, CONTEXT] = startsOf(BLOCKS) as [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

/** Feature of an octave of white keys by 1 and 4. */
export const WHITE_OCTAVE_BY_FOURTH = NEIGHBOURS + (pairOf(1, 4) * GAPS + OCTAVE) * 4;

/** Semitones above which the gap within a triad counts as wide. */
const WIDE_GAP = 4;

function shape(view: SliceView, fingers: readonly Finger[], sink: Sink): void {
  const last = fingers.length - 1;
  for (let at = 0; at <= last; at++) {
    sink.add(KEY + ((fingers[at]! - 1) * 2 + colour(view.black[at])) * 2 + (view.struck[at] ? 0 : 1), 1);
    if (at === last) break;
    const gap = Math.min(GAPS - 1, view.keys[at + 1]! - view.keys[at]!);
    const colours = colour(view.black[at]) * 2 + colour(view.black[at + 1]);
    sink.add(NEIGHBOURS + (pairOf(fingers[at]!, fingers[at + 1]!) * GAPS + gap) * 4 + colours, 1);
  }
  sink.add(OUTER + pairOf(fingers[0]!, fingers[last]!) * GAPS + Math.min(GAPS - 1, view.high - view.low), 1);
  if (last === 2) {
    const [low, mid, high] = view.keys as [number, number, number];
    const wide = (mid - low > WIDE_GAP ? 2 : 0) + (high - mid > WIDE_GAP ? 1 : 0);
    sink.add(TRIAD + (pairOf(fingers[0]!, fingers[1]!) * 5 + fingers[2]! - 1) * 4 + wide, 1);
  }
}

/** Index of the key nearest to `key`; of two the lower one. */
function nearest(keys: readonly number[], key: number): number {
  let best = 0;
  for (let at = 1; at < keys.length; at++) {
    if (Math.abs(keys[at]! - key) < Math.abs(keys[best]! - key)) best = at;
  }
  return best;
}

/**
 * Habit for keys held together, and for steps to or from them: from outer key to outer key, to each key from the nearest
 * one before it; outer fingers by the strides of the highest keys.
 */
export const chord: Term = {
  name: 'habit: chord',
  blocks: BLOCKS,
  slice(view, fingers, surroundings, sink) {
    if (fingers.length < 2) return;
    shape(view, fingers, sink);
    const strides = surroundings.strideIn * STRIDES + surroundings.strideOut;
    sink.add(CONTEXT + pairOf(fingers[0]!, fingers.at(-1)!) * STRIDES * STRIDES + strides, 1);
  },
  pair(before, view) {
    if (areSingle(before, view) || before.keys.length === 0 || view.keys.length === 0) return undefined;
    return new ChordSteps(before, view);
  },
};

class ChordSteps implements PairCount {
  /** By key of the later slice: the nearest one of the earlier slice, and the interval from there. */
  readonly #near: number[] = [];
  readonly #intervals: number[] = [];
  readonly #low: number;
  readonly #high: number;
  readonly #struck: readonly boolean[];

  constructor(before: SliceView, view: SliceView) {
    this.#low = intervalIndex(view.low - before.low);
    this.#high = intervalIndex(view.high - before.high);
    this.#struck = view.struck;
    for (const key of view.keys) {
      const near = nearest(before.keys, key);
      this.#near.push(near);
      this.#intervals.push(intervalIndex(key - before.keys[near]!));
    }
  }

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    sink.add(HIGH + pairOf(from[from.length - 1]!, to[to.length - 1]!) * INTERVALS + this.#high, 1);
    sink.add(LOW + pairOf(from[0]!, to[0]!) * INTERVALS + this.#low, 1);
    for (let at = 0; at < to.length; at++) {
      if (!this.#struck[at]) continue;
      sink.add(NEAREST + pairOf(from[this.#near[at]!]!, to[at]!) * INTERVALS + this.#intervals[at]!, 1);
    }
  }
}
