import type { Line } from '../hands/line.js';
import type { Note, PrintedDigit } from '../score/model.js';
import type { Settings } from './settings.js';

/** Whether the chosen notes are left without any digit: the file's are set aside, and none of ours is wanted. */
export function leavesNoDigit({ existing, digits }: Pick<Settings, 'existing' | 'digits'>): boolean {
  return existing === 'replace' && digits === 'none';
}

/** True where the file itself prints the note's finger. */
export function isPrinted(note: Note, { stacked }: Line): boolean {
  return stacked?.has(note.id) || note.stack.length > 0 || note.digits.some(isMain);
}

function isMain({ alternate }: PrintedDigit): boolean {
  return !alternate;
}
