import type { Interval } from './pitch.js';
import type { Mode } from './scales.js';

export const CHORD_KINDS = [
  'major',
  'minor',
  'diminished',
  'augmented',
  'dominant-seventh',
  'major-seventh',
  'minor-seventh',
  'half-diminished-seventh',
  'diminished-seventh',
  'minor-major-seventh',
  'augmented-seventh',
  'augmented-major-seventh',
] as const;
export type ChordKind = (typeof CHORD_KINDS)[number];

/** What a chord is made of, root position, and the signature that it is written with; everything is common practice. */
export interface ChordForm {
  readonly notes: readonly Interval[];
  /** As in `ScaleForm`: that of the key in which the chord is at home; absent: no signature. */
  readonly signature?: number;
  readonly mode?: Mode;
}

/** Thirds on alternate letters. */
const thirds = (...semitones: readonly number[]): readonly Interval[] =>
  semitones.map((own, nth) => ({ letters: 2 * nth, semitones: own }));

export const CHORDS: Readonly<Record<ChordKind, ChordForm>> = {
  major: { notes: thirds(0, 4, 7), signature: 0, mode: 'major' },
  minor: { notes: thirds(0, 3, 7), signature: -3, mode: 'minor' },
  diminished: { notes: thirds(0, 3, 6) },
  augmented: { notes: thirds(0, 4, 8) },
  // The key a fifth below, whose dominant it is.
  'dominant-seventh': { notes: thirds(0, 4, 7, 10), signature: -1, mode: 'major' },
  'major-seventh': { notes: thirds(0, 4, 7, 11), signature: 0, mode: 'major' },
  'minor-seventh': { notes: thirds(0, 3, 7, 10), signature: -3, mode: 'minor' },
  'half-diminished-seventh': { notes: thirds(0, 3, 6, 10) },
  'diminished-seventh': { notes: thirds(0, 3, 6, 9) },
  'minor-major-seventh': { notes: thirds(0, 3, 7, 11), signature: -3, mode: 'minor' },
  'augmented-seventh': { notes: thirds(0, 4, 8, 10) },
  'augmented-major-seventh': { notes: thirds(0, 4, 8, 11) },
};
