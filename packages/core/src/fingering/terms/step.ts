import type { Term } from './term.js';
import { areSingle, colour, INTERVALS, intervalOf, pairOf, STRIDES, strideOf } from './term.js';
import { wayOf } from './way.js';

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
    const way = wayOf(before, view);
    const [interval, stride] = [intervalOf(way), strideOf(way, FIFTH)];
    const colours = colour(before.black[0]) * 2 + colour(view.black[0]);
    return (from, to, sink) => {
      const pair = pairOf(from[0]!, to[0]!);
      const cell = pair * INTERVALS + interval;
      if (view.fresh) sink.add(FRESH + cell, 1);
      else {
        sink.add(PLAIN + cell, 1);
        sink.add(COLOURED + cell * 4 + colours, 1);
      }
      sink.add(PACED + (pair * STRIDES + stride) * 3 + view.pace, 1);
    };
  },
};
