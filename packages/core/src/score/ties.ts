import type { TieRole } from './model.js';

/** What the resolution of ties needs of a note; times on one integer grid. */
export interface TieNote {
  readonly key: number;
  readonly voice: string;
  readonly tie: TieRole;
  readonly start: number;
  readonly end: number;
}

/**
 * Finds for every tie's end the note that it continues: the latest one of the same key, if possible of the same voice,
 * with a tie's beginning and an end within `tolerance` of this note's start. A tie's end without such a note (a second
 * ending, a misplaced tie) is struck.
 * @returns for each note the index of the note that it continues, or -1
 */
export function resolveTies(notes: readonly TieNote[], tolerance: number): number[] {
  const from = new Array<number>(notes.length).fill(-1);
  if (!notes.some((note) => note.tie === 'stop' || note.tie === 'both')) return from;
  const open = new Map<number, number[]>();
  const order = notes.map((_, index) => index).filter((index) => notes[index]?.tie !== 'none');
  order.sort((a, b) => startOf(notes, a) - startOf(notes, b) || a - b);
  for (const index of order) {
    const note = notes[index] as TieNote;
    const waiting = open.get(note.key) ?? [];
    if (note.tie !== 'start') {
      const fits = waiting.filter((at) => Math.abs((notes[at]?.end ?? 0) - note.start) <= tolerance);
      const same = fits.filter((at) => notes[at]?.voice === note.voice);
      const found = same.at(-1) ?? fits.at(-1);
      if (found !== undefined) {
        from[index] = found;
        waiting.splice(waiting.indexOf(found), 1);
      }
    }
    // Beginnings that ended long ago can match nothing any more.
    const fresh = waiting.filter((at) => (notes[at]?.end ?? 0) + tolerance >= note.start);
    if (note.tie !== 'stop') fresh.push(index);
    open.set(note.key, fresh);
  }
  return from;
}

function startOf(notes: readonly TieNote[], index: number): number {
  return notes[index]?.start ?? 0;
}
