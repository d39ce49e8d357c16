import { add, toNumber } from '../numeric/fraction.js';
import type { Note } from '../score/model.js';

/** A key going down at a certain moment of a hand: one or more note heads, and how long they are written to sound. */
export interface Strike {
  readonly key: number;
  readonly notes: Note[];
  /** When the written sound ends, tied continuations included, in quarter notes; a grace note's own onset. */
  end: number;
  /** When the finger leaves the key by its articulation, in quarter notes. */
  release: number;
}

/** All strikes of one moment: grace notes come before their main note at the same onset. */
export interface Moment {
  readonly onset: number;
  /** 0 for main notes, -1 for the last grace note before them, -2 for the one before that. */
  readonly order: number;
  /** Keys ascend. */
  readonly strikes: readonly Strike[];
}

/** A note with its place in time, as `Moment` has it. */
interface Placed {
  readonly note: Note;
  readonly onset: number;
  readonly order: number;
}

/** Share of its written length that a staccato note is held (common practice). */
const STACCATO_SHARE = 0.5;

/**
 * @param notes what one hand plays, tied continuations left out
 * @param soundEnd end of every note of the part in quarter notes, ties merged into the first note
 */
export function momentsOf(notes: readonly Note[], soundEnd: readonly number[]): Moment[] {
  const runs = graceRuns(notes);
  const placed: Placed[] = [];
  for (const note of notes) {
    const order = note.grace < 0 ? 0 : note.grace - (runs.get(graceRun(note)) ?? 0) - 1;
    placed.push({ note, onset: toNumber(note.onset), order });
  }
  placed.sort(inTime);
  const moments: Moment[] = [];
  let strikes: Strike[] = [];
  let last: { onset: number; order: number } | undefined;
  for (const { note, onset, order } of placed) {
    if (last?.onset !== onset || last.order !== order) {
      strikes = [];
      moments.push({ onset, order, strikes });
      last = { onset, order };
    }
    const end = soundEnd[note.id] ?? onset;
    const tied = note.tie === 'start' || note.tie === 'both';
    const release = note.staccato && !tied ? onset + (end - onset) * STACCATO_SHARE : end;
    const same = strikes.at(-1);
    if (same?.key === note.key) {
      same.notes.push(note);
      same.end = Math.max(same.end, end);
      same.release = Math.max(same.release, release);
    } else strikes.push({ key: note.key, notes: [note], end, release });
  }
  return moments;
}

/** Notes of one moment ascend. */
function inTime(a: Placed, b: Placed): number {
  return a.onset - b.onset || a.order - b.order || a.note.key - b.note.key || a.note.id - b.note.id;
}

/** End of every note in quarter notes; a note that others continue by ties ends with the last of them. */
export function soundEnds(notes: readonly Note[]): number[] {
  const ends: number[] = [];
  for (const { onset, duration } of notes) ends.push(toNumber(add(onset, duration)));
  const struckBy = strikers(notes);
  for (let id = 0; id < ends.length; id++) {
    const first = struckBy[id]!;
    ends[first] = Math.max(ends[first]!, ends[id]!);
  }
  return ends;
}

/** For every note the id of the note that strikes its key: its own, or the first of its chain of ties. */
export function strikers(notes: readonly Note[]): number[] {
  const first = new Array<number>(notes.length).fill(-1);
  for (const { id, tiedFrom } of notes) {
    if (tiedFrom < 0) {
      first[id] = id;
      continue;
    }
    const chain: number[] = [];
    let at = id;
    while (first[at] === -1 && (notes[at]?.tiedFrom ?? -1) >= 0) {
      chain.push(at);
      at = notes[at]?.tiedFrom as number;
    }
    if (first[at] === -1) first[at] = at;
    for (const member of chain) first[member] = first[at] as number;
  }
  return first;
}

function graceRun(note: Note): string {
  return `${note.onset.num}/${note.onset.den} ${note.voice}`;
}

/** Highest grace index of every run of grace notes. */
function graceRuns(notes: readonly Note[]): Map<string, number> {
  const runs = new Map<string, number>();
  for (const note of notes) {
    if (note.grace >= 0) runs.set(graceRun(note), Math.max(runs.get(graceRun(note)) ?? 0, note.grace));
  }
  return runs;
}
