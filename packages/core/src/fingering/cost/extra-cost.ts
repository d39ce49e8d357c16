/** Extra cost of one slice, mm equivalents; where a table is missing, it is 0. */
export interface SliceExtraCost {
  /** Of the slice itself: `[candidate * DEPTH_COUNT + depth]`. */
  readonly own?: Float64Array;
  /** Of the step into it: `[candidate before * candidates + candidate]`. */
  readonly steps?: Float64Array;
}

/** A named part of the cost that no term sees: of ornaments, or of the joins of repeats. */
export interface ExtraCost {
  /** As reports call it. */
  readonly name: string;
  readonly slices: ReadonlyMap<number, SliceExtraCost>;
}
