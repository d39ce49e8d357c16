import { isStep } from '../../view/interval.js';
import { blocksOf } from './blocks.js';
import type { Term } from './term.js';

/** Notes of one direction that make a run, counted from the note itself. */
const RUN = 3;

/**
 * The thumb on a black key within a run by step: there it waits for the next white key instead (common practice). One
 * feature, counted once a note.
 */
export const thumb: Term = {
  name: 'thumb on black',
  blocks: blocksOf({ 'in a run': { note: 1 } }),
  slice(view, fingers, { ledBy, leadsTo, strideIn, strideOut }, sink) {
    if (fingers.length !== 1 || fingers[0] !== 1 || !view.black[0]) return;
    const run = Math.max(Math.abs(ledBy), Math.abs(leadsTo)) >= RUN;
    if (run && (isStep(strideIn) || isStep(strideOut))) sink.add(0, 1);
  },
};
