import type { Term } from './term.js';

/**
 * One finger that plays two different keys in a row without a break: it must leave the first key early. Features by
 * pace: fast, moderate, slow. Sliding from a black key to the white key beside it is no hop (common practice).
 */
export const hop: Term = {
  name: 'hop',
  size: 3,
  pair(before, view, from, to, sink) {
    if (view.fresh || from.length !== 1 || to.length !== 1 || from[0] !== to[0]) return;
    const way = Math.abs(view.low - before.low);
    if (way === 0 || (way === 1 && before.black[0] && !view.black[0])) return;
    sink(view.pace, 1);
  },
};
