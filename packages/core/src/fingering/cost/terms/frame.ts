import { blocksOf } from './blocks.js';
import type { Term } from './term.js';

/** Features: the thumb is not on the first key, 4 or another finger than 5 is on the last. */
export const NO_THUMB = 0;
export const FOURTH = 1;
export const NO_FIFTH = 2;

/**
 * The frame of a hand that strikes three keys or more together: 1 and 5 on the outer keys, 4 in the place of 5 (common
 * practice).
 */
export const frame: Term = {
  name: 'frame',
  blocks: blocksOf({ outside: { 'no thumb, 4 in the place of 5, neither': 3 } }),
  slice(view, fingers, _surroundings, sink) {
    if (fingers.length < 3 || view.struck.includes(false)) return;
    if (fingers[0] !== 1) sink.add(NO_THUMB, 1);
    const last = fingers[fingers.length - 1]!;
    if (last === 4) sink.add(FOURTH, 1);
    else if (last !== 5) sink.add(NO_FIFTH, 1);
  },
};
