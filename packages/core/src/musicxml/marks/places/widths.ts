/**
 * Staff spaces that letters of our texts take at their size, as verovio counts them: narrow ones, wide ones, capitals, all
 * others (the widest of them).
 */
const NARROW = 0.63;
const WIDE = 1.63;
const OTHER = 1.16;
const IS_NARROW = /[fijlt.,’' ]/u;
const IS_WIDE = /[mw\p{Lu}]/u;

/** Staff spaces left free behind a text: a letter. */
export const GAP = 1;

/** Staff spaces of the longest line of a text, without the blanks behind it. */
export function widthOf(text: string): number {
  let most = 0;
  for (const line of text.split('\n')) {
    let width = 0;
    for (const letter of line.trimEnd()) {
      width += IS_NARROW.test(letter) ? NARROW : IS_WIDE.test(letter) ? WIDE : OTHER;
    }
    most = Math.max(most, width);
  }
  return most;
}
