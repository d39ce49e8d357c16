import type { XmlElement } from '../../xml/tree.js';
import { decimal, integer } from './number.js';

const STEPS = 'CDEFGAB';
/** Semitones above C by step. */
const NATURALS = [0, 2, 4, 5, 7, 9, 11] as const;

/** What a `<pitch>` says. */
export interface Pitch {
  /** Sounding MIDI key number. */
  readonly key: number;
  /** Place on the staff as written: 7 x octave + step, C = 0 ... B = 6. */
  readonly diatonic: number;
}

/** Why a `<pitch>` has no key on the piano. */
export type NoKey = 'unreadable' | 'microtonal';

/**
 * Key and place on the staff of a `<pitch>`; the transposition is added to the key. Notes under an `<octave-shift>` need
 * nothing: their `<pitch>` is where they sound ("a treble clef line noted with 8va will be indicated with an octave-shift
 * down from the pitch data", MusicXML 4.0 schema, octave-shift); neither does an octave clef.
 */
export function pitchOf(pitch: XmlElement, transposition: number): Pitch | NoKey {
  const name = pitch.lastTextOf('step')?.trim() ?? '';
  const step = name.length === 1 ? STEPS.indexOf(name) : -1;
  const octave = integer(pitch.lastTextOf('octave'));
  const alter = decimal(pitch.lastTextOf('alter') ?? '0');
  if (step < 0 || octave === undefined || alter === undefined) return 'unreadable';
  const key = 12 * (octave + 1) + NATURALS[step]! + alter + transposition;
  if (Math.abs(octave) > 20 || Math.abs(alter) > 12) return 'unreadable';
  return Number.isInteger(key) ? { key, diatonic: 7 * octave + step } : 'microtonal';
}

/** Semitones that a `<transpose>` adds to written pitches. */
export function transpositionOf(transpose: XmlElement): number {
  const chromatic = decimal(transpose.textOf('chromatic')) ?? 0;
  const octaves = integer(transpose.textOf('octave-change')) ?? 0;
  const total = chromatic + 12 * octaves;
  return Math.abs(total) <= 120 ? total : 0;
}
