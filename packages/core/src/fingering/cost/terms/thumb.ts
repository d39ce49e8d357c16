import { isStep } from '../../view/interval.js';
import { blocksOf } from './blocks.js';
import type { Term } from './term.js';

/** Steps in one direction that make a run, and that five fingers take without a pass. */
const RUN = 3;
const IN_PLACE = 4;

/**
 * The thumb on a black key within a run by step: there it waits for the next white key instead (common practice), but not where
 * a run of five notes begins, turns or ends: there the five fingers lie in their place. One feature, counted once a note.
 */
export const thumb: Term = {
  name: 'thumb on black',
  blocks: blocksOf({ 'in a run': { note: 1 } }),
  slice(view, fingers, { ledBy, leadsTo, strideIn, strideOut }, sink) {
    if (fingers.length !== 1 || fingers[0] !== 1 || !view.black[0]) return;
    const steps = Math.max(Math.abs(ledBy), Math.abs(leadsTo));
    const isOutside = steps === IN_PLACE && ledBy * leadsTo <= 0;
    if (steps >= RUN && !isOutside && (isStep(strideIn) || isStep(strideOut))) sink.add(0, 1);
  },
};
