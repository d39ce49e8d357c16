/** A fingering of a line with the forearm's depth at every slice. */
export interface Choice {
  /** Index into `candidates` by slice. */
  readonly path: readonly number[];
  /** Index into `DEPTHS` by slice. */
  readonly depths: readonly number[];
  /** Share of the cost that the bias adds, by slice, mm equivalents. */
  readonly biased: readonly number[];
  /** mm equivalents of the whole line. */
  readonly cost: number;
}
