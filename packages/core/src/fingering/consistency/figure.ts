/** A figure that occurs more than once. */
export interface Figure {
  /** The slices that stand in one place of its occurrences. */
  readonly slices: readonly number[];
  /** mm equivalents that a slice pays for deviating from the consensus. */
  readonly price: number;
}
