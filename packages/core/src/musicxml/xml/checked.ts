import type { Span } from '../../score/model.js';
import type { Masks } from './masks.js';

/** A text that is well-formed. */
export interface Checked {
  readonly text: string;
  /** Number of elements. */
  readonly elements: number;
  /**
   * DOCTYPE and processing instructions: the tree needs none of them, and the parser misreads some (an apostrophe in a
   * processing instruction, a conditional section).
   */
  readonly masks: Masks;
  /** Stretches that hold whole elements on one level, far below the root, so that each can be parsed by itself. */
  readonly pieces: readonly Span[];
}
