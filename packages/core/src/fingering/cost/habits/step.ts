import type { Finger } from '../../../score/model.js';
import { intervalBetween, STRIDES, strideOf } from '../../view/interval.js';
import { roughPace, type SliceView } from '../../view/view.js';
import { blocksOf, startsOf } from '../terms/blocks.js';
import type { PairCount, Sink, Term } from '../terms/term.js';
import { areSingle, colour, FINGER_PAIRS, INTERVALS, intervalIndex, pairOf } from '../terms/term.js';

const BLOCKS = blocksOf({
  interval: { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'interval by colours': { 'finger pair': FINGER_PAIRS, interval: INTERVALS, colours: 4 },
  'after a break': { 'finger pair': FINGER_PAIRS, interval: INTERVALS },
  'stride by pace': { 'finger pair': FINGER_PAIRS, stride: STRIDES, pace: 3 },
});
const [PLAIN, COLOURED, FRESH, PACED] = startsOf(BLOCKS) as [number, number, number, number];

/** Semitones up to which an interval is no leap. */
const FIFTH = 7;

/** Habit for two neighbouring single keys: finger pair by interval, key colours, fresh start and pace. */
export const step: Term = {
  name: 'habit: step',
  blocks: BLOCKS,
  pair(before, view) {
    if (!areSingle(before, view)) return undefined;
    return new SingleSteps(before, view);
  },
};

class SingleSteps implements PairCount {
  readonly #interval: number;
  readonly #stride: number;
  readonly #colours: number;

  constructor(
    before: SliceView,
    private readonly view: SliceView,
  ) {
    const interval = intervalBetween(before, view);
    this.#interval = intervalIndex(interval);
    this.#stride = strideOf(interval, FIFTH);
    this.#colours = colour(before.black[0]) * 2 + colour(view.black[0]);
  }

  count(from: readonly Finger[], to: readonly Finger[], sink: Sink): void {
    const { fresh, pace } = this.view;
    const pair = pairOf(from[0]!, to[0]!);
    const cell = pair * INTERVALS + this.#interval;
    if (fresh) sink.add(FRESH + cell, 1);
    else {
      sink.add(PLAIN + cell, 1);
      sink.add(COLOURED + cell * 4 + this.#colours, 1);
    }
    sink.add(PACED + (pair * STRIDES + this.#stride) * 3 + roughPace(pace), 1);
  }
}
