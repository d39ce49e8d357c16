/** How far dashes go from the words before them: to which measure from theirs, and how many ticks into it. */
export interface Reach {
  readonly measures: number;
  readonly tick: number;
}

/** Ticks of a quarter note: fine enough to part the shortest notes. */
export const TICKS = 960;

/** As the token of the words has it. */
export function reachName({ measures, tick }: Reach): string {
  return `-${measures}-${tick}`;
}
