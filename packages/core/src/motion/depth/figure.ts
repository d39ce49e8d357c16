import { haveSameKeys, type Slice } from '../../hands/line.js';

/** Keys at least so many semitones apart, one after the other, are of a broken chord and none of a scale. */
const LEAST_OF_CHORD = 3;

/** What a move belongs to: to and fro between two notes; through a broken chord; or any other line. */
export type Figure = 'to-and-fro' | 'broken-chord' | 'line';

/** By slice, the figure of the move into it. */
export function figuresOf(slices: readonly Slice[]): readonly Figure[] {
  const turns = toAndFro(slices);
  return slices.map((_, at) => {
    if (turns[at]) return 'to-and-fro';
    return isOfChord(slices[at - 1], slices[at]) && isOfChord(slices[at], slices[at + 1])
      ? 'broken-chord'
      : 'line';
  });
}

/** Whether two slices are keys of a broken chord: one key each, a third apart or more. */
function isOfChord(one: Slice | undefined, next: Slice | undefined): boolean {
  if (one?.struck.length !== 1 || next?.struck.length !== 1) return false;
  return Math.abs(one.struck[0]!.key - next.struck[0]!.key) >= LEAST_OF_CHORD;
}

/**
 * By slice, true where the move into it belongs to a figure that turns to and fro, as a trill, a tremolo, an Alberti bass or
 * a bass with chords behind it: one of the two notes comes three times, another note before each. Keys struck again count as
 * one note.
 */
function toAndFro(slices: readonly Slice[]): readonly boolean[] {
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
