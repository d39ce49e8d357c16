import type { CueMark } from '../musicxml/marks/edit.js';
import { handPlacement } from '../pipeline/placement.js';
import type { Finger, Hand, Note, Part } from '../score/model.js';

/** A finger that a review proposes for a note. */
export interface Proposal {
  /** Index of its part. */
  readonly part: number;
  readonly note: Note;
  readonly hand: Hand;
  readonly printed: Finger | undefined;
  readonly finger: Finger;
}

/**
 * The proposals as words such as `(3)`, at a chord a line for each key, `2 (3)`, from the top down: of several digits at a note
 * some programs show the last one only, which would hide the printed one. The first proposal for a note counts.
 */
export function proposalMarks(parts: readonly Part[], proposals: readonly Proposal[]): CueMark[] {
  if (proposals.length === 0) return [];
  const places = new Map<string, Proposal[]>();
  for (const one of proposals) {
    const place = `${one.part} ${one.hand} ${placeOf(one.note)}`;
    const own = places.get(place) ?? [];
    places.set(place, own);
    if (!own.some(({ note: { id } }) => id === one.note.id)) own.push(one);
  }
  const chords = parts.map(chordsOf);
  return [...places.values()].map((own): CueMark => {
    const [{ part, note, hand }] = own as [Proposal];
    const isChord = own.length > 1 || chords[part]!.has(`${note.staff} ${placeOf(note)}`);
    const lines = own
      .toSorted((a, b) => b.note.key - a.note.key)
      .map(({ printed, finger }) =>
        isChord && printed !== undefined ? `${printed} (${finger})` : `(${finger})`,
      );
    return { part, note: note.id, text: lines.join('\n'), placement: handPlacement(hand) };
  });
}

function placeOf({ onset, grace }: Note): string {
  return `${onset.num}/${onset.den} ${grace}`;
}

/** Staff and place of everything where several notes begin, whatever their voices. */
function chordsOf({ notes }: Part): ReadonlySet<string> {
  const once = new Set<string>();
  const chords = new Set<string>();
  for (const note of notes) {
    const place = `${note.staff} ${placeOf(note)}`;
    if (once.has(place)) chords.add(place);
    else once.add(place);
  }
  return chords;
}
