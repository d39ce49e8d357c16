import type { Interval } from './pitch.js';

export const SCALE_KINDS = [
  'major',
  'natural-minor',
  'harmonic-minor',
  'melodic-minor',
  'dorian',
  'phrygian',
  'lydian',
  'mixolydian',
  'locrian',
  'chromatic',
  'whole-tone',
  'major-pentatonic',
  'minor-pentatonic',
  'octatonic-whole-half',
  'octatonic-half-whole',
] as const;
export type ScaleKind = (typeof SCALE_KINDS)[number];

/** Modes that MusicXML knows by name. */
export type Mode = 'major' | 'minor' | 'dorian' | 'phrygian' | 'lydian' | 'mixolydian' | 'locrian';

/** What a kind of scale is made of; everything is common practice. */
export interface ScaleForm {
  /** The notes of an octave upwards, as intervals from the tonic. */
  readonly up: readonly Interval[];
  /** Downwards, where that differs, listed upwards all the same. */
  readonly down?: readonly Interval[];
  /** Other ways to spell `up`, for tonics on which the first would take double accidentals. */
  readonly respelled?: readonly (readonly Interval[])[];
  /** Sharps of the signature more than those of the major key on the same note; absent: no signature. */
  readonly signature?: number;
  readonly mode?: Mode;
}

/** Seven notes on seven letters. */
const seven = (...semitones: readonly number[]): readonly Interval[] => onLetters(semitones, '0123456');

/** @param letters above the tonic, a digit for each note */
function onLetters(semitones: readonly number[], letters: string): readonly Interval[] {
  return semitones.map((own, nth) => ({ letters: Number(letters[nth]), semitones: own }));
}

const MAJOR = seven(0, 2, 4, 5, 7, 9, 11);
const MINOR = seven(0, 2, 3, 5, 7, 8, 10);
const SEMITONES = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
const WHOLE_TONES = [0, 2, 4, 6, 8, 10];
// Alternating tones and semitones: O. Messiaen, Technique de mon langage musical (1944), second mode of limited
// transposition, from memory. Which letter occurs twice is common practice.
const WHOLE_HALF = [0, 2, 3, 5, 6, 8, 9, 11];
const HALF_WHOLE = [0, 1, 3, 4, 6, 7, 9, 10];

/** Letters of the chromatic scale only count its notes: how they are written depends on the direction (`keys.ts`). */
export const SCALES: Readonly<Record<ScaleKind, ScaleForm>> = {
  major: { up: MAJOR, signature: 0, mode: 'major' },
  'natural-minor': { up: MINOR, signature: -3, mode: 'minor' },
  'harmonic-minor': { up: seven(0, 2, 3, 5, 7, 8, 11), signature: -3, mode: 'minor' },
  'melodic-minor': { up: seven(0, 2, 3, 5, 7, 9, 11), down: MINOR, signature: -3, mode: 'minor' },
  dorian: { up: seven(0, 2, 3, 5, 7, 9, 10), signature: -2, mode: 'dorian' },
  phrygian: { up: seven(0, 1, 3, 5, 7, 8, 10), signature: -4, mode: 'phrygian' },
  lydian: { up: seven(0, 2, 4, 6, 7, 9, 11), signature: 1, mode: 'lydian' },
  mixolydian: { up: seven(0, 2, 4, 5, 7, 9, 10), signature: -1, mode: 'mixolydian' },
  locrian: { up: seven(0, 1, 3, 5, 6, 8, 10), signature: -5, mode: 'locrian' },
  chromatic: { up: onLetters(SEMITONES, '001123344556') },
  'whole-tone': {
    up: onLetters(WHOLE_TONES, '012345'),
    respelled: ['012346', '012356', '012456', '013456', '023456'].map((own) => onLetters(WHOLE_TONES, own)),
  },
  'major-pentatonic': { up: onLetters([0, 2, 4, 7, 9], '01245'), signature: 0, mode: 'major' },
  'minor-pentatonic': { up: onLetters([0, 3, 5, 7, 10], '02346'), signature: -3, mode: 'minor' },
  'octatonic-whole-half': {
    up: onLetters(WHOLE_HALF, '01234556'),
    respelled: ['01233456', '01123456'].map((own) => onLetters(WHOLE_HALF, own)),
  },
  'octatonic-half-whole': {
    up: onLetters(HALF_WHOLE, '01223456'),
    respelled: ['01234566', '01233456', '00123456'].map((own) => onLetters(HALF_WHOLE, own)),
  },
};
