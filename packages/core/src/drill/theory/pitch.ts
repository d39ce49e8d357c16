import { HIGHEST_KEY, LOWEST_KEY } from '../../keyboard/key-plan.js';

/** Letters of an octave. */
export const LETTERS = 7;
/** Semitones of the letters C ... B above C. */
const NATURALS: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** A written note. */
export interface Pitch {
  /** Place on the staff: 7 x octave + step, C = 0 ... B = 6; middle C is in octave 4. */
  readonly diatonic: number;
  /** Semitones by which its accidentals alter it, up positive. */
  readonly alter: number;
}

/** The way from one written note to another: letters and semitones, both up positive. */
export interface Interval {
  readonly letters: number;
  readonly semitones: number;
}

export const stepOf = ({ diatonic }: Pitch): number => diatonic - LETTERS * octaveOf(diatonic);

export function octaveOf(diatonic: number): number {
  return Math.floor(diatonic / LETTERS);
}

/** MIDI number of the key without accidentals. */
function naturalKey(diatonic: number): number {
  const octave = octaveOf(diatonic);
  return 12 * (octave + 1) + NATURALS[diatonic - LETTERS * octave]!;
}

/** MIDI number of the key, C4 being 60. */
export function keyOf({ diatonic, alter }: Pitch): number {
  return naturalKey(diatonic) + alter;
}

/** The note at a place on the staff that is this key. */
export function spelled(key: number, diatonic: number): Pitch {
  return { diatonic, alter: key - naturalKey(diatonic) };
}

export function transposed(pitch: Pitch, { letters, semitones }: Interval): Pitch {
  return spelled(keyOf(pitch) + semitones, pitch.diatonic + letters);
}

export function isOnKeyboard(pitch: Pitch): boolean {
  const key = keyOf(pitch);
  return key >= LOWEST_KEY && key <= HIGHEST_KEY;
}

/** The note at a place of a row that repeats in every octave: 0 is the first, one row further an octave higher. */
export function inDegreeOctave(first: Pitch, row: readonly Interval[], place: number): Pitch {
  const octaves = Math.floor(place / row.length);
  const { letters, semitones } = row[place - octaves * row.length]!;
  return transposed(first, { letters: letters + LETTERS * octaves, semitones: semitones + 12 * octaves });
}
