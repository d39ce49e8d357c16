import type { Line } from '../../hands/line.js';
import { GAP, LETTERS_A_QUICK_NOTE, lettersInto, longestLine } from './room.js';

/** Shares of their room that notes have where a system is full, eighths and quicker ones: measured on pages that verovio drew. */
const PRESSED = 0.8;
const PRESSED_QUICK = 1 / 3;

/** A text at one slice. */
interface Placed {
  readonly slice: number;
  readonly text: string;
}

/**
 * The row that each text stands in, by number: neighbours that are clear of each other and of all others share one, so that
 * programs can set them at one height. Undefined for a text over or under which another one comes to stand, and for one that
 * would be alone.
 *
 * @param texts by slice
 */
export function rowsOf(line: Line, texts: readonly Placed[]): readonly (number | undefined)[] {
  const rows = texts.map((): number | undefined => undefined);
  let row = 0;
  let isClear = true;
  // Where the row began that goes on here.
  let first = 0;
  for (let at = 0; at <= texts.length; at++) {
    const wasClear = isClear;
    const text = texts[at];
    isClear = text !== undefined && endsBefore(line, text, texts[at + 1]);
    if (wasClear && isClear) continue;
    if (at - first > 1) rows.fill(row++, first, at);
    first = at + 1;
  }
  return rows;
}

function endsBefore(line: Line, { slice, text }: Placed, next: Placed | undefined): boolean {
  if (next === undefined) return true;
  let left = longestLine(text) + GAP;
  for (let at = slice + 1; at <= next.slice && left > 0; at++) {
    const letters = lettersInto(line, at);
    left -= letters * (letters > LETTERS_A_QUICK_NOTE ? PRESSED : PRESSED_QUICK);
  }
  return left <= 0;
}
