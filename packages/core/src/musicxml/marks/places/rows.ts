/** A text on one side of one staff. */
export interface Placed {
  /** Index among the cues. */
  readonly cue: number;
  /** Where it begins and ends at least, in staff spaces along the score, with the gap behind it. */
  readonly left: number;
  readonly right: number;
  /** How far what lies beside it reaches beyond the staff, in steps: an estimate. */
  readonly extent: number;
  readonly lines: number;
  /** How far its first line, which verovio sets level with others, lies from its innermost one, in steps. */
  readonly rise: number;
  /** Where it stands in the file, in which order verovio sets texts. */
  readonly order: number;
  /** Whether it may stand in a row. */
  readonly isFree: boolean;
}

/** Steps of the staff that a line of text takes. */
export const LINE = 4;

/** Steps by which heights must differ by estimate, so that they surely do. Measured (docs/cues.md). */
const SURE = 2;

/** Texts before one that may reach over it: from memory. */
const NEAREST = 6;

/**
 * Rows of texts that programs can set at one height. verovio lifts the texts of a row to the highest, and does not look what
 * is in their way. So none reaches over another one of its row. A text that reaches over the next is in a row only where it surely
 * stands highest there and is not lifted; and the next begins one only where it surely lies outside it: where it cannot slip
 * under it.
 *
 * @param texts from left to right
 */
export function rowsOf(texts: readonly Placed[]): readonly (readonly Placed[])[] {
  const reaching = texts.map((text, at) => reachingOver(texts, text, at));
  const unordered = unorderedTexts(texts, reaching);
  const rows: (readonly Placed[])[] = [];
  // How far out texts stand at most, by estimate.
  const heights: number[] = [];
  let row: number[] = [];
  const close = (end: readonly number[]): void => {
    rows.push(end.map((one) => texts[one]!));
    row = [];
  };
  for (const [at, text] of texts.entries()) {
    const before = reaching[at]!;
    const isFree = text.isFree && !unordered.has(at);
    if (!isFree || row.some((one) => before.includes(one))) close(unlifted(row, before, texts, heights));
    const ends = before.map((one) => heights[one]! + LINE * texts[one]!.lines);
    heights.push(unordered.has(at) ? Number.POSITIVE_INFINITY : Math.max(text.extent, ...ends));
    const room = text.extent + LINE * text.lines - SURE;
    if (isFree && before.every((one) => heights[one]! < room)) row.push(at);
  }
  close(row);
  return rows.filter(({ length }) => length > 1);
}

function reachingOver(texts: readonly Placed[], { left }: Placed, at: number): readonly number[] {
  const reaching: number[] = [];
  for (let before = Math.max(0, at - NEAREST); before < at; before++)
    if (texts[before]!.right > left) reaching.push(before);
  return reaching;
}

/** Texts that lie on one which stands before them on the page and behind them in the file, as another voice may, and those ones. */
function unorderedTexts(
  texts: readonly Placed[],
  reaching: readonly (readonly number[])[],
): ReadonlySet<number> {
  const unordered = new Set<number>();
  for (const [at, { order }] of texts.entries())
    for (const before of reaching[at]!) if (texts[before]!.order > order) unordered.add(before).add(at);
  return unordered;
}

/** A row without its texts that reach over the one behind it, but for one that stands further out than all others. */
function unlifted(
  row: readonly number[],
  reaching: readonly number[],
  texts: readonly Placed[],
  heights: readonly number[],
): readonly number[] {
  const others = row.filter((one) => !reaching.includes(one));
  const highest = Math.max(...others.map((one) => heights[one]! + texts[one]!.rise));
  // By what lies beside it alone: another system may not have the texts over which it lies.
  const own = (one: number): number => texts[one]!.extent + texts[one]!.rise;
  return row.filter((one) => others.includes(one) || isTop(one));

  function isTop(one: number): boolean {
    const isOnly = row.every((other) => other === one || others.includes(other) || own(other) < own(one));
    return isOnly && own(one) >= highest + SURE;
  }
}
