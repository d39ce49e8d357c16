import type { Hand } from '#core/score/model.js';

/** A short tune of our own, fingered by hand, note by note, before the library was asked (two alternatives, of chromatic notes and seventh chords, after it). */
export interface Tune {
  readonly texture: string;
  readonly hand: Hand;
  /** Quarter notes a minute. */
  readonly tempo?: number;
  /**
   * Measures of notes by `|`, one voice a string: `C4` is an eighth note, `C4:4` four of them; `C4+E4` a chord, `r` a rest,
   * `~` before a chord rolls it, `'` before a note makes it a grace note, `&` puts a trill over it.
   */
  readonly notes: readonly string[];
  /** The digits of what is struck together, lowest key first; more ways are as good where they are given, by `or`. */
  readonly digits: string;
  /** Why a teacher would write them. */
  readonly why: string;
  readonly repeated?: boolean;
  /** Where the library differs, what it prints, and why that is worse: an aim of the cost, not a matter of taste. */
  readonly aim?: { readonly printed: string; readonly worse: string };
}
