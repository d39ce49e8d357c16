import type { Finger } from '../../../score/model.js';
import { intervalBetween, STRIDES, strideOf } from '../../view/interval.js';
import type { SliceView } from '../../view/view.js';
import type { PairCount, Sink, Term } from './term.js';
import { areSingle, colour, INTERVALS, intervalIndex, pairOf } from './term.js';

const PLAIN = 0;
const COLOURED = PLAIN + 25 * INTERVALS;
const FRESH = COLOURED + 25 * INTERVALS * 4;
const PACED = FRESH + 25 * INTERVALS;
const SIZE = PACED + 25 * STRIDES * 3;

/** Semitones up to which an interval is no leap. */
const FIFTH = 7;

/** Habit for two neighbouring single keys: finger pair by interval, key colours, fresh start and pace. */
export const step: Term = {
  name: 'habit: step',
  size: SIZE,
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
    sink.add(PACED + (pair * STRIDES + this.#stride) * 3 + pace, 1);
  }
}
