import type { Hand } from '../score/model.js';

/** What `annotate` begins with. */
export interface Progress {
  /** Reading the score, fingering one hand with its motion, or choosing and writing the marks. */
  readonly step: 'reading' | 'fingering' | 'writing';
  /** While fingering: id of the part. */
  readonly part?: string;
  /** While fingering: the hand. */
  readonly hand?: Hand;
  /** Share of the work that is done, 0 ... 1: an estimate, by the number of onsets. */
  readonly share: number;
}

/** Shares of the time, measured on scores of 300 to 3,000 notes. */
export const READING_SHARE = 0.2;
export const FINGERING_SHARE = 0.7;
