/**
 * Staff spaces that letters of our texts take at their size, as verovio counts them: measured letter by letter, the widest of
 * each kind.
 */
const WIDTHS: readonly (readonly [width: number, letters: RegExp])[] = [
  [0.63, /[fijlt.,'/ ]/u],
  [0.88, /[rsz]/u],
  [1, /[ceokuvxy]/u],
  [1.16, /d/u],
  [1.23, /p/u],
  [1.88, /[MW]/u],
  [1.63, /[mw\p{Lu}]/u],
];
const OTHER = 1.06;

/** Staff spaces left free behind a text: a letter, and what a system that is pressed together takes away. Measured (docs/cues.md). */
export const GAP = 1.6;

/** Staff spaces of the longest line of a text, without the blanks behind it. */
export function widthOf(text: string): number {
  let most = 0;
  for (const line of text.split('\n')) {
    let width = 0;
    for (const letter of line.trimEnd()) width += letterWidth(letter);
    most = Math.max(most, width);
  }
  return most;
}

function letterWidth(letter: string): number {
  return WIDTHS.find(([, letters]) => letters.test(letter))?.[0] ?? OTHER;
}
