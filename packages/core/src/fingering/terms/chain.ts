import type { Term } from './term.js';
import { INTERVALS, intervalOf, pairOf } from './term.js';

const SKIP = 0;
const CHAIN = SKIP + 25 * INTERVALS;
const HIGH = CHAIN + 125 * 9;
const LOW = HIGH + 25 * INTERVALS;
const SIZE = LOW + 25 * INTERVALS;

/** Habit for three slices in a row: first and third finger by their interval; the three fingers by the two directions. */
export const chain: Term = {
  name: 'habit: chain',
  size: SIZE,
  triple(first, second, third, a, b, c, sink) {
    if (a.length === 0 || b.length === 0 || c.length === 0) return;
    if (a.length === 1 && b.length === 1 && c.length === 1) {
      sink(SKIP + pairOf(a[0]!, c[0]!) * INTERVALS + intervalOf(third.low - first.low), 1);
      const way = (Math.sign(second.low - first.low) + 1) * 3 + Math.sign(third.low - second.low) + 1;
      sink(CHAIN + (pairOf(a[0]!, b[0]!) * 5 + c[0]! - 1) * 9 + way, 1);
      return;
    }
    sink(HIGH + pairOf(a.at(-1)!, c.at(-1)!) * INTERVALS + intervalOf(third.high - first.high), 1);
    sink(LOW + pairOf(a[0]!, c[0]!) * INTERVALS + intervalOf(third.low - first.low), 1);
  },
};
