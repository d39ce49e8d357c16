import type { TieRole } from './model.js';

/** What the resolution of ties needs of a note. */
export interface TieNote {
  readonly key: number;
  readonly voice: string;
  readonly tie: TieRole;
}

/** Ties of one key that wait for their end at the same time; more make no sense and only cost time. */
const MOST_OPEN = 32;

/**
 * Finds for every tie's end the note that it continues: the latest one of the same key, if possible of the same voice,
 * with a tie's beginning and an end within `tolerance` of this note's start. A tie's end without such a note (a second
 * ending, a misplaced tie) is struck.
 * @param starts onset of every note; `lengths` and `tolerance` in the same unit
 * @returns for each note the index of the note that it continues, or -1
 */
export function resolveTies(
  notes: readonly TieNote[],
  starts: readonly number[],
  lengths: readonly number[],
  tolerance: number,
): number[] {
  const from = new Array<number>(notes.length).fill(-1);
  const startOf = (index: number) => starts[index] ?? 0;
  const endOf = (index: number) => startOf(index) + (lengths[index] ?? 0);
  const open = new Map<number, number[]>();
  const order: number[] = [];
  for (let index = 0; index < notes.length; index++) if (notes[index]?.tie !== 'none') order.push(index);
  if (order.length === 0) return from;
  order.sort((a, b) => startOf(a) - startOf(b) || a - b);
  for (const index of order) {
    const note = notes[index] as TieNote;
    const waiting = open.get(note.key) ?? [];
    if (note.tie !== 'start') {
      const fits = waiting.filter((at) => Math.abs(endOf(at) - startOf(index)) <= tolerance);
      const found = fits.filter((at) => notes[at]?.voice === note.voice).at(-1) ?? fits.at(-1);
      if (found !== undefined) {
        from[index] = found;
        waiting.splice(waiting.indexOf(found), 1);
      }
    }
    // Beginnings that ended long ago can match nothing any more.
    const fresh = waiting.filter((at) => endOf(at) + tolerance >= startOf(index));
    if (note.tie !== 'stop') fresh.push(index);
    open.set(note.key, fresh.slice(-MOST_OPEN));
  }
  return from;
}
