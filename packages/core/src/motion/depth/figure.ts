import { haveSameKeys, type Slice } from '../../hands/line.js';

/**
 * By slice, true where the move into it belongs to a figure that turns to and fro, as a trill, a tremolo, an Alberti bass or
 * a bass with chords behind it: one of the two notes comes three times, another note before each. Keys struck again count as
 * one note.
 */
export function toAndFro(slices: readonly Slice[]): readonly boolean[] {
  const notes: Slice[] = [];
  const noteAt: number[] = [];
  for (let at = 0; at < slices.length; at++) {
    if (at === 0 || !haveSameKeys(slices[at - 1]!, slices[at]!)) notes.push(slices[at]!);
    noteAt.push(notes.length - 1);
  }
  return noteAt.map((note) => comesThrice(notes, note) || comesThrice(notes, note - 1));
}

function comesThrice(notes: readonly Slice[], at: number): boolean {
  for (let first = at - 4; first <= at; first += 2) {
    if (alternates(notes, first) && alternates(notes, first + 2)) return true;
  }
  return false;
}

/** Whether the same keys are struck two notes later. */
function alternates(notes: readonly Slice[], at: number): boolean {
  const [one, other] = [notes[at], notes[at + 2]];
  return one !== undefined && other !== undefined && haveSameKeys(one, other);
}
