import type { Line } from '../hands/line.js';
import type { Finger } from '../score/model.js';

/** Fingers of one slice: `struck[i]` plays `slice.struck[i]`; null where no finger of the hand can. */
export interface SliceFingering {
  /** Of the keys that are struck here. */
  readonly struck: readonly (Finger | null)[];
  /** Of the keys that are still held. */
  readonly held: readonly (Finger | null)[];
  /** Cost of this slice by term, in millimetre equivalents of sideways hand travel. */
  readonly terms: Readonly<Record<string, number>>;
  /** Movement into this slice and discomfort in it by mechanics alone, in mm; never negative. */
  readonly movement: number;
}

/** The least-cost fingering of a line. */
export interface LineFingering {
  /** What was fingered. */
  readonly line: Line;
  /** Of every slice of the line, in its order. */
  readonly slices: readonly SliceFingering[];
  /** Sum of all terms, in mm equivalents of sideways hand travel. */
  readonly cost: number;
}
