import type { Warning } from '../score/errors.js';
import { toNumber } from '../score/fraction.js';
import type { Note, Part } from '../score/model.js';
import type { Hand } from './line.js';
import { type StaffChoice, type StaffRole, staffRoles } from './staves.js';
import { strikers } from './strikes.js';
import { homeStaves } from './voices.js';

/** Widest stretch in semitones that a visiting note may ask of its home hand: the practical maximum of 1-5 (Parncutt et al. 1997, from memory). */
export const WIDEST_STRETCH = 15;

/** Who plays each note of a part; undefined where nobody does. */
export interface Assignment {
  readonly roles: readonly (StaffRole | undefined)[];
  readonly warnings: readonly Warning[];
}

/**
 * A note is played by the hand of its voice's home staff, also where the voice visits another staff, unless that hand
 * would have to stretch over more than `WIDEST_STRETCH` semitones at its onset; then the hand of the staff that it
 * stands on plays it. Words such as "m.s." override both. A tied continuation stays with the hand that struck it.
 */
export function assignHands(part: Part, choice: StaffChoice | undefined): Assignment {
  const byStaff = staffRoles(part, choice);
  const homes = homeStaves(part.notes);
  const roles = part.notes.map((note, id) => byStaff.get(homes[id] ?? note.staff) ?? byStaff.get(note.staff));
  const moved = returnVisitors(part.notes, homes, roles, byStaff);
  part.notes.forEach((note, id) => {
    const role = roles[id];
    if (note.handWord !== undefined && role !== undefined) roles[id] = { ...role, hand: note.handWord };
  });
  strikers(part.notes).forEach((first, id) => {
    roles[id] = roles[first];
  });
  return { roles, warnings: moved.length === 0 ? [] : [movedWarning(part, moved)] };
}

/** Gives visiting notes that stretch their home hand too far to the staff's own hand; returns those notes. */
function returnVisitors(
  notes: readonly Note[],
  homes: readonly number[],
  roles: (StaffRole | undefined)[],
  byStaff: ReadonlyMap<number, StaffRole>,
): Note[] {
  const moved: Note[] = [];
  const visits = (note: Note) => homes[note.id] !== note.staff;
  if (!notes.some(visits)) return moved;
  const sounding: Record<Hand, Note[]> = { right: [], left: [] };
  const inTime = notesInTime(notes);
  for (let first = 0; first < inTime.length; ) {
    const onset = startOf(inTime[first] as Note);
    let end = first;
    while (end < inTime.length && startOf(inTime[end] as Note) === onset) end += 1;
    const together = inTime.slice(first, end);
    for (const hand of ['right', 'left'] as const) {
      sounding[hand] = sounding[hand].filter((note) => onset < startOf(note) + toNumber(note.duration));
      const struck = together.filter((note) => roles[note.id]?.hand === hand);
      const settled = [...sounding[hand], ...struck.filter((note) => !visits(note))].map((note) => note.key);
      for (const note of struck.filter(visits)) {
        const keys = [...settled, ...struck.filter(visits).map((visitor) => visitor.key)];
        if (Math.max(...keys) - Math.min(...keys) <= WIDEST_STRETCH) break;
        roles[note.id] = byStaff.get(note.staff);
        if (roles[note.id]?.hand !== hand) moved.push(note);
      }
    }
    for (const note of together) {
      const role = roles[note.id];
      if (role !== undefined) sounding[role.hand].push(note);
    }
    first = end;
  }
  return moved;
}

function startOf(note: Note): number {
  return toNumber(note.onset);
}

function notesInTime(notes: readonly Note[]): Note[] {
  return [...notes].sort((a, b) => startOf(a) - startOf(b) || a.id - b.id);
}

function movedWarning(part: Part, moved: readonly Note[]): Warning {
  const first = moved[0] as Note;
  const measure = part.measures[first.measure]?.number ?? '';
  return {
    code: 'HAND_MOVED',
    message: `${moved.length} cross-staff notes lie too far for their voice's hand; the hand of their staff plays them`,
    place: { part: part.id, measure, line: first.line },
  };
}
