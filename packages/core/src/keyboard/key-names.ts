import { isBlack, pitchClass } from './key-plan.js';

/** How a note is written: its letter, C = 0 ... B = 6, and by how many semitones its accidentals alter it, up positive. */
export interface Spelling {
  /** Letter: C = 0 ... B = 6. */
  readonly step: number;
  /** Semitones, up positive. */
  readonly alter: number;
}

const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;
/** Accidentals alter by two semitones at most. */
const MOST_ALTER = 2;
/** Semitones of the letters above C. */
const NATURALS: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/**
 * Name of a key for people, C4 being middle C. A spelling that is not this key's, as in a transposed part, is
 * ignored; without one black keys are named as sharps.
 *
 * @param key MIDI key number
 */
export function keyName(key: number, spelling?: Spelling): string {
  const own = spellingFor(key, spelling);
  const octave = Math.floor((key - own.alter) / 12) - 1;
  return `${spelledName(own)}${octave}`;
}

/**
 * How a key is written at a place on the staff; undefined where no accidental leads there, as in a transposed part.
 *
 * @param diatonic 7 x octave + step, C = 0 ... B = 6
 */
export function spellingOf(key: number, diatonic: number): Spelling | undefined {
  const step = diatonic - 7 * Math.floor(diatonic / 7);
  // An octave's transposition leaves the spelling as it is.
  const alter = pitchClass(key - NATURALS[step]! + MOST_ALTER) - MOST_ALTER;
  return alter > MOST_ALTER ? undefined : { step, alter };
}

function spells({ step, alter }: Spelling, key: number): boolean {
  return pitchClass(NATURALS[step]! + alter) === pitchClass(key);
}

function sharpSpelling(key: number): Spelling {
  const alter = isBlack(key) ? 1 : 0;
  return { step: NATURALS.indexOf(pitchClass(key - alter)), alter };
}

/** The key's own spelling, or its sharp. */
export function spellingFor(key: number, spelling: Spelling | undefined): Spelling {
  return spelling && spells(spelling, key) ? spelling : sharpSpelling(key);
}

function spelledName({ step, alter }: Spelling): string {
  return `${LETTERS[step]}${(alter < 0 ? '♭' : '♯').repeat(Math.abs(alter))}`;
}
