import type { Term } from './term.js';
import { colour, INTERVALS, intervalOf, pairOf } from './term.js';

const PLAIN = 0;
const COLOURED = PLAIN + 25 * INTERVALS;
const FRESH = COLOURED + 25 * INTERVALS * 4;
const PACED = FRESH + 25 * INTERVALS;
const SIZE = PACED + 25 * 7 * 3;

/** Interval in seven steps: leap, third or fourth, step down; same key; and up. */
function stride(semitones: number): number {
  const size = Math.abs(semitones);
  const wide = size === 0 ? 0 : size <= 2 ? 1 : size <= 7 ? 2 : 3;
  return 3 + Math.sign(semitones) * wide;
}

/** Habit for two neighbouring single keys: finger pair by interval, key colours, fresh start and pace. */
export const step: Term = {
  name: 'habit: step',
  size: SIZE,
  pair(before, view, from, to, sink) {
    if (from.length !== 1 || to.length !== 1) return;
    const pair = pairOf(from[0]!, to[0]!);
    const way = view.low - before.low;
    const cell = pair * INTERVALS + intervalOf(way);
    if (view.fresh) sink(FRESH + cell, 1);
    else {
      sink(PLAIN + cell, 1);
      sink(COLOURED + cell * 4 + colour(before.black[0]) * 2 + colour(view.black[0]), 1);
    }
    sink(PACED + (pair * 7 + stride(way)) * 3 + view.pace, 1);
  },
};
