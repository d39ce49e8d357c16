import type { Edit } from './edit.js';

const LOW_SURROGATE = /^[\udc00-\udfff]/;
const HIGH_SURROGATE = /[\ud800-\udbff]$/;

function splitsSurrogates(text: string, at: number): boolean {
  if (at <= 0 || at >= text.length) return false;
  const before = text.charCodeAt(at - 1);
  const after = text.charCodeAt(at);
  return before >= 0xd800 && before <= 0xdbff && after >= 0xdc00 && after <= 0xdfff;
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
  if (LOW_SURROGATE.test(edit.text) || HIGH_SURROGATE.test(edit.text)) {
    throw new RangeError(`edit [${start}, ${end}) would write half a character`);
  }
}

/**
 * Applies edits, all in coordinates of `text`, in one pass. Order does not matter, except that insertions at
 * the same place keep theirs; an insertion at the start of a replaced range comes before the replacement.
 *
 * @throws RangeError where an edit leaves the text, overlaps another, or cuts a surrogate pair
 */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const sorted = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
  const pieces: string[] = [];
  let done = 0;
  for (const edit of sorted) {
    check(text, edit, done);
    pieces.push(text.slice(done, edit.start), edit.text);
    done = edit.end;
  }
  pieces.push(text.slice(done));
  return pieces.join('');
}
