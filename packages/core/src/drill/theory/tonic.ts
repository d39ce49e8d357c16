import { optionError } from '../../score/errors.js';
import type { Pitch } from './pitch.js';

/** A letter with its accidental, in no octave: a keynote or the root of a chord. */
export interface Tonic {
  /** C = 0 ... B = 6. */
  readonly step: number;
  /** -1 flat, 0 natural, 1 sharp. */
  readonly alter: number;
}

const LETTER_NAMES = 'CDEFGAB';
/** Fifths of the major keys on the natural letters: C 0, G 1, F -1 ... */
const FIFTHS: readonly number[] = [0, 2, 4, -1, 1, 3, 5];
const SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** Fifths of the major key on this note: the sharps of its signature, flats negative. */
export function majorFifths({ step, alter }: Tonic): number {
  return FIFTHS[step]! + 7 * alter;
}

/** Semitones above C, 0 ... 11. */
export function pitchClassOf({ step, alter }: Tonic): number {
  return (SEMITONES[step]! + alter + 12) % 12;
}

/** The tonic in an octave; middle C is in octave 4. */
export function inOctave({ step, alter }: Tonic, octave: number): Pitch {
  return { diatonic: 7 * octave + step, alter };
}

/** `Bb`, `F#`, `c`, `E♭`.
 *
 * @throws HandlineError OPTION where it is no keynote
 */
export function parseTonic(name: string): Tonic {
  const match = /^([A-Ga-g])([#♯b♭]?)$/u.exec(name);
  if (!match) {
    throw optionError('keys', `"${name}" is not a key; give letters with # or b, such as C, F# or Bb`);
  }
  const step = LETTER_NAMES.indexOf(match[1]!.toUpperCase());
  const sign = match[2]!;
  return { step, alter: sign === '' ? 0 : sign === '#' || sign === '♯' ? 1 : -1 };
}

/** `Bb`, as `parseTonic` reads it. */
export function tonicName({ step, alter }: Tonic): string {
  return `${LETTER_NAMES[step]}${alter < 0 ? 'b' : alter > 0 ? '#' : ''}`;
}

/** Every spelling of the twelve pitch classes with at most one accidental, from C upwards. */
export const SPELLINGS: readonly (readonly Tonic[])[] = Array.from({ length: 12 }, (_, pitchClass) =>
  [0, 1, 2, 3, 4, 5, 6].flatMap((step) =>
    [-1, 0, 1].map((alter) => ({ step, alter })).filter((tonic) => pitchClassOf(tonic) === pitchClass),
  ),
);
