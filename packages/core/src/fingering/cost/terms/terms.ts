import { chain } from '../habits/chain.js';
import { chord } from '../habits/chord.js';
import { single } from '../habits/single.js';
import { step } from '../habits/step.js';
import { sizeOf } from './blocks.js';
import { crossing } from './crossing.js';
import { frame } from './frame.js';
import { hop } from './hop.js';
import { position } from './position.js';
import { change } from './stated/change.js';
import { endurance } from './stated/endurance.js';
import { idle } from './stated/idle.js';
import { leap } from './stated/leap.js';
import { order } from './stated/order.js';
import { ownFinger } from './stated/own-finger.js';
import { passes } from './stated/passes.js';
import { repetition } from './stated/repetition.js';
import { stretch } from './stretch.js';
import type { Term } from './term.js';
import { thumb } from './thumb.js';
import { travel } from './travel.js';

/** Every term of the cost in the order of their weights; depth is no term, but part of the search's state. */
export const TERMS: readonly Term[] = [
  travel,
  position,
  stretch,
  crossing,
  hop,
  frame,
  leap,
  repetition,
  change,
  endurance,
  idle,
  passes,
  order,
  ownFinger,
  thumb,
  single,
  step,
  chain,
  chord,
];

/** Index of each term's first weight. */
export const OFFSETS: readonly number[] = TERMS.map((_, at) =>
  TERMS.slice(0, at).reduce((sum, term) => sum + sizeOf(term.blocks), 0),
);

export const FEATURES = TERMS.reduce((sum, { blocks }) => sum + sizeOf(blocks), 0);
