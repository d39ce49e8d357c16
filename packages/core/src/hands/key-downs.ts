import { add, toNumber } from '../numeric/fraction.js';
import type { Note } from '../score/model.js';
import type { Clock } from '../score/tempo.js';

/** A key going down for one note head, or for several in unison. Times in quarter notes. */
export interface KeyDown {
  readonly key: number;
  readonly notes: readonly Note[];
  /** When the written sound ends, tied continuations included; a grace note's own onset. */
  readonly end: number;
  /** When the finger leaves the key by its articulation. */
  readonly release: number;
}

/** The keys that one hand strikes together: what begins a slice. */
export interface SliceStart {
  /** Quarter notes. */
  readonly onset: number;
  /** 0 for main notes, -1 for the last grace note before them, -2 for the one before that. */
  readonly order: number;
  /** When it sounds: before its onset for a grace note. */
  readonly seconds: number;
  /** Keys ascend. */
  readonly keyDowns: readonly KeyDown[];
}

/** Seconds that a grace note takes from the time before its main note: about a 32nd at 90 (common practice: quick). */
export const GRACE_SECONDS = 0.08;
/** Share of the gap before their main note that grace notes take at most: from memory. */
const MOST_OF_GAP = 0.5;
/** Share of its written length that a staccato note is held (common practice). */
const STACCATO_SHARE = 0.5;
/** Quarter notes by which rounded durations (tuplets in coarse divisions) may overlap or leave a gap: from memory. */
export const ROUNDING = 0.02;

/** A note with its place in time, as `SliceStart` has it. */
interface Placed {
  readonly note: Note;
  readonly onset: number;
  readonly order: number;
}

/**
 * @param notes what one hand plays, tied continuations left out
 * @param ends end of every note of the part in quarter notes, as `soundEnds` gives it
 */
export function sliceStarts(notes: readonly Note[], ends: readonly number[], clock: Clock): SliceStart[] {
  const placed = placeNotes(notes);
  const starts: SliceStart[] = [];
  let lastMain = Number.NEGATIVE_INFINITY;
  let graceSeconds = 0;
  for (let first = 0, next = 0; first < placed.length; first = next) {
    const { onset, order } = placed[first]!;
    const keyDowns: KeyDown[] = [];
    while (isTogether(placed[first]!, placed[next])) {
      const head = next;
      while (isTogether(placed[head]!, placed[next]) && placed[next]!.note.key === placed[head]!.note.key)
        next++;
      keyDowns.push(keyDownOf(placed.slice(head, next), ends));
    }
    const main = clock.secondsAt(onset);
    if (order < 0 && starts.at(-1)?.onset !== onset)
      graceSeconds = Math.min(GRACE_SECONDS, (MOST_OF_GAP * Math.max(main - lastMain, 0)) / -order);
    if (order === 0) lastMain = main;
    starts.push({ onset, order, seconds: main + order * graceSeconds, keyDowns });
  }
  return starts;
}

function placeNotes(notes: readonly Note[]): Placed[] {
  const runs = graceRuns(notes);
  const placed: Placed[] = [];
  for (const note of notes) {
    const order = note.grace < 0 ? 0 : note.grace - (runs.get(graceRun(note)) ?? 0) - 1;
    placed.push({ note, onset: toNumber(note.onset), order });
  }
  return placed.sort(inTime);
}

/** By time, then by key. */
function inTime(a: Placed, b: Placed): number {
  return a.onset - b.onset || a.order - b.order || a.note.key - b.note.key || a.note.id - b.note.id;
}

function isTogether(one: Placed, other: Placed | undefined): boolean {
  return other?.onset === one.onset && other.order === one.order;
}

/** @param heads note heads of one key at one moment */
function keyDownOf(heads: readonly Placed[], ends: readonly number[]): KeyDown {
  const notes: Note[] = [];
  let end = Number.NEGATIVE_INFINITY;
  let release = Number.NEGATIVE_INFINITY;
  for (const { note, onset } of heads) {
    notes.push(note);
    const own = ends[note.id]!;
    const tied = note.tie === 'start' || note.tie === 'both';
    end = Math.max(end, own);
    release = Math.max(release, note.staccato && !tied ? onset + (own - onset) * STACCATO_SHARE : own);
  }
  return { key: heads[0]!.note.key, notes, end, release };
}

/** End of every note in quarter notes; a note that others continue by ties ends with the last of them. */
export function soundEnds(notes: readonly Note[]): number[] {
  const ends: number[] = [];
  for (const { onset, duration } of notes) ends.push(toNumber(add(onset, duration)));
  const firsts = firstsOfTies(notes);
  for (let id = 0; id < ends.length; id++) {
    const first = firsts[id]!;
    ends[first] = Math.max(ends[first]!, ends[id]!);
  }
  return ends;
}

/** For every note the id of the note whose key-down it sounds by: its own, or the first of its chain of ties. */
export function firstsOfTies(notes: readonly Note[]): number[] {
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
