import type { Warning } from '../score/errors.js';
import type { Hand, Note, Part, Score } from '../score/model.js';
import { Clock } from '../score/tempo.js';
import { assignHands } from './assignment/assign.js';
import { type HandOptions, pianoParts } from './assignment/parts.js';
import type { StaffRole } from './assignment/staves.js';
import { sliceStarts, soundEnds } from './key-downs.js';
import type { Line } from './line.js';
import { slicesOf } from './slices.js';
import { shareDigits } from './stacked-digits.js';

/** The lines of all piano parts, right hand before left, and warnings about who plays what. */
export interface BuiltLines {
  readonly lines: readonly Line[];
  readonly warnings: readonly Warning[];
}

/**
 * What each hand plays, part by part. A hand without notes has no line; a part of four staves has two of each hand.
 * @throws HandlineError OPTION where a part or staff that was asked for does not exist
 */
export function buildLines(score: Score, options: HandOptions = {}): BuiltLines {
  const { parts, warnings } = pianoParts(score, options);
  const found = [...warnings];
  const lines: Line[] = [];
  const keeps = (options.existing ?? 'keep') === 'keep';
  const clock = new Clock(score.tempo);
  for (const part of parts) {
    const { roles, warnings: ofRoles } = assignHands(part, options.staff);
    const shared = shareDigits(part, roles);
    found.push(...ofRoles);
    if (keeps) found.push(...shared.warnings);
    const stacked = new Set(shared.fingers.keys());
    const ends = soundEnds(part.notes);
    for (const player of [0, 1]) {
      for (const hand of ['right', 'left'] as const) {
        const notes = notesOf(part, roles, hand, player);
        if (notes.length === 0) continue;
        lines.push({
          hand,
          part: part.index,
          slices: slicesOf(sliceStarts(notes, ends, clock), part, clock, keeps ? shared : undefined),
          stacked,
        });
      }
    }
  }
  return { lines, warnings: found };
}

/** The notes that one hand of one player strikes: tied continuations left out. */
function notesOf(
  part: Part,
  roles: readonly (StaffRole | undefined)[],
  hand: Hand,
  player: number,
): readonly Note[] {
  const notes: Note[] = [];
  for (const note of part.notes) {
    const role = roles[note.id];
    if (role?.hand === hand && role.player === player && note.tiedFrom < 0) notes.push(note);
  }
  return notes;
}
