import type { Edit } from './edit.js';

const isHighSurrogate = (code: number) => code >= 0xd800 && code <= 0xdbff;
const isLowSurrogate = (code: number) => code >= 0xdc00 && code <= 0xdfff;

function splitsSurrogates(text: string, at: number): boolean {
  return isHighSurrogate(text.charCodeAt(at - 1)) && isLowSurrogate(text.charCodeAt(at));
}

function check(text: string, edit: Edit, previousEnd: number): void {
  const { start, end } = edit;
  if (!Number.isInteger(start) || !Number.isInteger(end) || start < 0 || end < start || end > text.length) {
    throw new RangeError(`edit [${start}, ${end}) does not lie in a text of ${text.length} characters`);
  }
  if (start < previousEnd) {
    throw new RangeError(`edit [${start}, ${end}) overlaps an edit that ends at ${previousEnd}`);
  }
  if (splitsSurrogates(text, start) || splitsSurrogates(text, end)) {
    throw new RangeError(`edit [${start}, ${end}) cuts a character in two`);
  }
  if (
    isLowSurrogate(edit.text.charCodeAt(0)) ||
    isHighSurrogate(edit.text.charCodeAt(edit.text.length - 1))
  ) {
    throw new RangeError(`edit [${start}, ${end}) would write half a character`);
  }
}

function byPlace(a: Edit, b: Edit): number {
  return a.start - b.start || a.end - b.end;
}

/**
 * Applies edits, all in coordinates of `text`, in one pass. Order does not matter, except that insertions at
 * the same place keep theirs; an insertion at the start of a replaced range comes before the replacement.
 *
 * @throws RangeError where an edit leaves the text, overlaps another, or cuts a surrogate pair
 */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  return editedPieces(text, edits).join('');
}

/** The same in pieces, none of which ends within a character. */
export function editedPieces(text: string, edits: readonly Edit[]): readonly string[] {
  const sorted = [...edits].sort(byPlace);
  const pieces: string[] = [];
  let done = 0;
  for (const edit of sorted) {
    check(text, edit, done);
    pieces.push(text.slice(done, edit.start), edit.text);
    done = edit.end;
  }
  pieces.push(text.slice(done));
  return pieces;
}
