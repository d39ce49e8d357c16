import type { Limits } from './options.js';

/**
 * The defaults of every limit against hostile input, in one place; `AnnotateOptions.limits` overrides each.
 * A MusicXML score of 100,000 notes has about 25 MB of text, a depth of 10 and, as an archive, a ratio of 20 to 60.
 */
export const DEFAULT_LIMITS: Limits = {
  maxBytes: 128 * 1024 * 1024,
  maxDepth: 128,
  maxNotes: 1_000_000,
  maxRatio: 250,
};

/** Highest values of the limits: V8's longest string has 2^29 - 24 units, and its stack limits how deep elements can be followed. */
export const HIGHEST_LIMITS: Partial<Limits> = { maxBytes: 500_000_000, maxDepth: 1000 };

/** Entries of one archive; a compressed score has a handful besides its pictures. */
export const MAX_ARCHIVE_ENTRIES = 4096;

/** Times within a score are exact on a grid of at most this many ticks a quarter note, else rounded to it. */
export const MAX_TICKS_PER_QUARTER = 10_080_000;

/** Longest single duration and latest onset that are read, in quarter notes; beyond them a number is refused. */
export const MAX_DURATION_QUARTERS = 100_000;
export const MAX_SCORE_QUARTERS = 50_000_000;

/** Highest staff and part-staves number that is read. */
export const MAX_STAVES = 64;
