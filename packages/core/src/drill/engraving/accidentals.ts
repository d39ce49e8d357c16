import type { Bar } from '../rhythm/bars.js';
import type { Pitch } from '../theory/pitch.js';
import { stepOf } from '../theory/pitch.js';

/** MusicXML's names by semitones, from -2 on. */
const NAMES = ['flat-flat', 'flat', 'natural', 'sharp', 'double-sharp'] as const;
export type Accidental = (typeof NAMES)[number];

/** Letters in the order in which signatures gain sharps; flats come in the reverse order. */
const SHARPS: readonly number[] = [3, 0, 4, 1, 5, 2, 6];

/** What a signature makes of a letter: -1, 0 or 1. */
export function signatureAlter(fifths: number, step: number): number {
  if (fifths > 0) return SHARPS.indexOf(step) < fifths ? 1 : 0;
  return 6 - SHARPS.indexOf(step) < -fifths ? -1 : 0;
}

/** The accidentals to print in a measure of a staff, by note and pitch: where a note differs from what is in force. */
export function accidentalsOf(bar: Bar, fifths: number): readonly (readonly (Accidental | undefined)[])[] {
  const inForce = new Map<number, number>();
  return bar.map(({ step, tied }) =>
    (step?.pitches ?? []).map((pitch) => {
      const before = inForce.get(pitch.diatonic) ?? signatureAlter(fifths, stepOf(pitch));
      if (tied.from || before === pitch.alter) return undefined;
      inForce.set(pitch.diatonic, pitch.alter);
      return nameOf(pitch);
    }),
  );
}

function nameOf({ alter }: Pitch): Accidental {
  return NAMES[alter + 2]!;
}
