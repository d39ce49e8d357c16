import { fill } from '../../messages/fill.js';
import type { MessageWords } from '../../messages/words.js';
import { toNumber } from '../../numeric/fraction.js';
import type { Warning } from '../../score/errors.js';
import type { Hand, Note, Part } from '../../score/model.js';
import { notePlace } from '../../score/place.js';
import { firstsOfTies } from '../key-downs.js';
import { otherHand } from '../line.js';
import { type StaffChoice, type StaffRole, staffRoles } from './staves.js';
import { homeStaves } from './voices.js';

/** Widest stretch in semitones that a visiting note may ask of its home hand: the practical maximum of 1-5 (Parncutt et al. 1997, from memory). */
const WIDEST_STRETCH = 15;

/** Who plays each note of a part, by note id; undefined where nobody does. */
export interface HandChoice {
  readonly roles: readonly (StaffRole | undefined)[];
  readonly warnings: readonly Warning[];
}

const NONE: ReadonlySet<number> = new Set();

/**
 * A note is played by the hand of its voice's home staff, also where the voice visits another staff, unless that hand
 * would have to stretch over more than `WIDEST_STRETCH` semitones at its onset; then the hand of the staff that it
 * stands on plays it. Words such as "m.s." override both. A tied continuation stays with the hand that struck it.
 *
 * @param given notes, by id, that their hand gives to the player's other hand
 */
export function assignHands(
  part: Part,
  choice: StaffChoice | undefined,
  words: MessageWords,
  given: ReadonlySet<number> = NONE,
): HandChoice {
  const byStaff = staffRoles(part, choice);
  const homes = homeStaves(part.notes);
  const roles: (StaffRole | undefined)[] = [];
  for (const { id, staff } of part.notes) roles.push(byStaff.get(homes[id] ?? staff) ?? byStaff.get(staff));
  const moved = returnVisitors(part.notes, homes, roles, byStaff);
  for (const { id, handWord } of part.notes) {
    const role = roles[id];
    if (handWord !== undefined && role !== undefined) roles[id] = { ...role, hand: handWord };
  }
  for (const id of given) {
    const role = roles[id];
    if (role !== undefined) roles[id] = { ...role, hand: otherHand(role.hand) };
  }
  const firsts = firstsOfTies(part.notes);
  for (let id = 0; id < roles.length; id++) roles[id] = roles[firsts[id]!];
  return { roles, warnings: moved.length === 0 ? [] : [movedWarning(part, moved, words)] };
}

/** Gives visiting notes that stretch their home hand too far to the hand of the staff that they stand on; returns those that change hands. */
function returnVisitors(
  notes: readonly Note[],
  homes: readonly number[],
  roles: (StaffRole | undefined)[],
  byStaff: ReadonlyMap<number, StaffRole>,
): Note[] {
  const moved: Note[] = [];
  const visitors = new Set<Note>();
  for (const note of notes) if (homes[note.id] !== note.staff) visitors.add(note);
  if (visitors.size === 0) return moved;
  // For each hand the keys that it holds and when their sound ends, in quarter notes.
  const holding: Record<Hand, Map<number, number>> = { right: new Map(), left: new Map() };
  const inTime = [...notes].sort(byStart);
  for (let first = 0, end = 0; first < inTime.length; first = end) {
    const onset = startOf(inTime[first] as Note);
    while (end < inTime.length && startOf(inTime[end] as Note) === onset) end += 1;
    const together = inTime.slice(first, end);
    for (const hand of ['right', 'left'] as const) {
      const held = holding[hand];
      for (const [key, end] of held) if (end <= onset) held.delete(key);
      const visiting: Note[] = [];
      const own = [...held.keys()];
      for (const note of together) {
        if (roles[note.id]?.hand !== hand) continue;
        if (visitors.has(note)) visiting.push(note);
        else own.push(note.key);
      }
      for (const note of beyondReach(visiting, own)) {
        roles[note.id] = byStaff.get(note.staff);
        if (roles[note.id]?.hand !== hand) moved.push(note);
      }
    }
    for (const note of together) {
      const held = holding[roles[note.id]?.hand ?? 'right'];
      const soundEnd = onset + toNumber(note.duration);
      if (roles[note.id] !== undefined) held.set(note.key, Math.max(held.get(note.key) ?? 0, soundEnd));
    }
  }
  return moved;
}

/** The visitors that must leave, furthest first, until the rest and the hand's own keys lie within its reach. */
function beyondReach(visitors: readonly Note[], own: readonly number[]): Note[] {
  const ascending = [...visitors].sort(byKey);
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (const key of own) {
    lowest = Math.min(lowest, key);
    highest = Math.max(highest, key);
  }
  const leaving: Note[] = [];
  let [from, to] = [0, ascending.length - 1];
  while (from <= to) {
    const [low, high] = [(ascending[from] as Note).key, (ascending[to] as Note).key];
    if (Math.max(highest, high) - Math.min(lowest, low) <= WIDEST_STRETCH) break;
    const above = own.length === 0 ? high - low : high - lowest;
    const below = own.length === 0 ? 0 : highest - low;
    if (above >= below) leaving.push(ascending[to--] as Note);
    else leaving.push(ascending[from++] as Note);
  }
  return leaving;
}

function startOf(note: Note): number {
  return toNumber(note.onset);
}

function byKey(a: Note, b: Note): number {
  return a.key - b.key;
}

function byStart(a: Note, b: Note): number {
  return startOf(a) - startOf(b) || a.id - b.id;
}

function movedWarning(part: Part, moved: readonly Note[], words: MessageWords): Warning {
  const first = moved[0] as Note;
  return {
    code: 'HAND_MOVED',
    message: moved.length === 1 ? words.handMovedOne : fill(words.handMoved, { count: moved.length }),
    place: notePlace(part, first),
  };
}
