import type { Line } from '../hands/line.js';
import type { Note, PrintedDigit } from '../score/model.js';

/** True where the file itself prints the note's finger. */
export function isPrinted(note: Note, { stacked }: Line): boolean {
  return stacked?.has(note.id) || note.stack.length > 0 || note.digits.some(isMain);
}

function isMain({ alternate }: PrintedDigit): boolean {
  return !alternate;
}
