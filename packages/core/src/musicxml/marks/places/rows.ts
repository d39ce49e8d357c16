/** A text on one side of one staff. */
export interface Placed {
  /** Index among the cues. */
  readonly cue: number;
  /** Where it begins and ends at least, in staff spaces along the score, with the gap behind it. */
  readonly left: number;
  readonly right: number;
  /** How far what lies beside it reaches beyond the staff, in steps: an estimate. */
  readonly extent: number;
  /** Whether it may stand in a row. */
  readonly isFree: boolean;
}

/**
 * Steps by which a text that reaches over the next may lie further from the staff at most, so that the next is surely outside
 * it: half of what a line takes that could slip under it. Measured (docs/cues.md).
 */
const FURTHER = 2;

/** Texts before one that may reach over it: from memory. */
const NEAREST = 6;

/**
 * Rows of texts that programs can set at one height. verovio lifts the texts of a row to the highest, and does not look what
 * is in their way. So none reaches over another one of its row. A text that reaches over the next is in none, and the next
 * begins one only where it surely lies outside it: where it cannot slip under it.
 *
 * @param texts from left to right
 */
export function rowsOf(texts: readonly Placed[]): readonly (readonly Placed[])[] {
  const rows: Placed[][] = [];
  let row: Placed[] = [];
  const isReached = new Set<Placed>();
  for (const [at, text] of texts.entries()) {
    const reaching = texts.slice(Math.max(0, at - NEAREST), at).filter(({ right }) => right > text.left);
    if (!text.isFree || row.some((before) => reaching.includes(before))) {
      rows.push(row.filter((before) => !reaching.includes(before)));
      row = [];
    }
    if (reaching.length > 0) isReached.add(text);
    const isOutside = reaching.every(
      (before) => !isReached.has(before) && before.extent < text.extent + FURTHER,
    );
    if (text.isFree && isOutside) row.push(text);
  }
  rows.push(row);
  return rows.filter(({ length }) => length > 1);
}
