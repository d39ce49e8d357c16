/** A figure that occurs more than once. */
export interface Figure {
  /** The slices that stand in one place of its occurrences, ascending. */
  readonly slices: readonly number[];
  /** How many slices of an occurrence stand before that place, and how many after it. */
  readonly before: number;
  readonly after: number;
  /** mm equivalents that a slice pays for deviating from the consensus. */
  readonly price: number;
}
