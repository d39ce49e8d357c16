/**
 * The rooms of packages/core/src from the ground up. A room may import from itself and from lower floors only; rooms of
 * one floor do not know each other.
 */
export const FLOORS: readonly (readonly string[])[] = [
  ['numeric'],
  ['score'],
  ['options', 'keyboard'],
  ['messages'],
  ['musicxml', 'anatomy', 'hands'],
  ['fingering'],
  ['motion'],
  ['cues'],
  ['pipeline', 'pictures'],
  ['review'],
  ['annotate.ts', 'read-lines.ts', 'label-notes.ts', 'set-digits.ts'],
  ['drill', 'worker'],
  ['index.ts'],
];

/** The same within musicxml: XML, the score that it holds, the marks on it. */
export const MUSICXML_FLOORS: readonly (readonly string[])[] = [['xml'], ['read'], ['marks']];
