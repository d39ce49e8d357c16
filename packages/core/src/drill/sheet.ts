import type { Finger, Hand } from '../score/model.js';
import type { Pitch } from './theory/pitch.js';
import type { Mode } from './theory/scales.js';

/** What a hand strikes at once. */
export interface Step {
  /** Lowest first; none is a rest. */
  readonly pitches: readonly Pitch[];
  /** Digits to print, by pitch. */
  readonly digits?: readonly Finger[];
  /** Length in ticks, where the rhythm of the sheet does not say it. */
  readonly ticks?: number;
}

/** What is played in one go, on measures of its own. */
export interface Exercise {
  /** Small text over its beginning. */
  readonly remark?: string;
  readonly steps: Readonly<Record<Hand, readonly Step[]>>;
}

/** Exercises under one heading and one signature. */
export interface Section {
  readonly heading: string;
  /** Sharps of the signature, flats negative. */
  readonly fifths: number;
  readonly mode?: Mode;
  readonly exercises: readonly Exercise[];
}
