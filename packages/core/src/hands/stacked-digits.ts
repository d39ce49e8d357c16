import { inPlaces } from '../messages/messages.js';
import type { MessageWords } from '../messages/words.js';
import type { Warning } from '../score/errors.js';
import type { Finger, Note, Part } from '../score/model.js';
import { notePlace } from '../score/place.js';
import type { StaffRole } from './assignment/staves.js';

/** Digits that stand stacked at one note head of a chord, shared out over the chord. */
export interface SharedDigits {
  /** Finger of each struck note of such a chord by note id. */
  readonly fingers: ReadonlyMap<number, Finger>;
  /** Ids of notes with several digits that do not fit their chord: none of these digits is used. */
  readonly unused: ReadonlySet<number>;
  readonly warnings: readonly Warning[];
}

/**
 * Many programs print the digits of a whole chord as one stack at one of its notes. Where the stack has as many digits
 * as the hand has notes in the chord and no other note of these has a digit, each note gets its own by pitch: along the
 * hand where the digits of the stack ascend or descend, else from the top of the stack down.
 * @param roles who plays each note
 */
export function shareDigits(
  part: Part,
  roles: readonly (StaffRole | undefined)[],
  words: MessageWords,
): SharedDigits {
  const fingers = new Map<number, Finger>();
  const unused = new Set<number>();
  const misfits: Note[] = [];
  for (const note of part.notes) {
    const role = roles[note.id];
    if (note.stack.length === 0 || role === undefined || note.tiedFrom >= 0) continue;
    const chord = chordOf(part.notes, note).filter(
      ({ id }) => roles[id]?.hand === role.hand && roles[id]?.player === role.player,
    );
    const alone = chord.every((other) => other === note || other.digits.length + other.stack.length === 0);
    if (chord.length > 1 && chord.length === note.stack.length && alone) {
      const upwards = alongHand(note.stack, role.hand === 'right');
      [...chord]
        .sort((a, b) => a.key - b.key)
        .forEach(({ id }, nth) => {
          fingers.set(id, upwards[nth] as Finger);
        });
    } else {
      misfits.push(note);
      // A single note's first digit is meant for it; that of a chord may be another note's.
      if (chord.length > 1) unused.add(note.id);
    }
  }
  return { fingers, unused, warnings: misfits.length === 0 ? [] : [misfitWarning(part, misfits, words)] };
}

/** The stack from the lowest note up. */
function alongHand(stack: readonly Finger[], ascends: boolean): readonly Finger[] {
  const sorted = [...stack].sort((a, b) => a - b);
  const same = (other: readonly Finger[]) => other.every((finger, at) => finger === stack[at]);
  const upwards = ascends ? sorted : [...sorted].reverse();
  return same(sorted) || same([...sorted].reverse()) ? upwards : [...stack].reverse();
}

function chordOf(notes: readonly Note[], { id }: Note): Note[] {
  let first = id;
  while (first > 0 && notes[first]?.chord) first -= 1;
  let end = id + 1;
  while (notes[end]?.chord) end += 1;
  return notes.slice(first, end);
}

function misfitWarning(part: Part, notes: readonly Note[], words: MessageWords): Warning {
  const first = notes[0] as Note;
  return {
    code: 'DIGIT_IGNORED',
    message: inPlaces(words.misfit, notes.length, words),
    place: notePlace(part, first),
  };
}
