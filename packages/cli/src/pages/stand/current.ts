import type { Notes } from './notes.js';
import type { Marked, Score, Settings } from './session.js';
import type { History } from './state.js';
import type { Shown } from './workers/shown.js';

/** A marked score on the page, with the choices that it was marked for. */
export interface Current {
  readonly score: Score;
  /** Of the note heads in the score as it was opened. */
  readonly offsets: ReadonlyMap<string, number>;
  readonly told: ReturnType<Shown['told']>;
  readonly marked: Marked;
  readonly notes: Notes;
  readonly history: History;
  readonly settings: Settings;
}
