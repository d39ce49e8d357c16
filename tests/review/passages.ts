import type { CauseName } from '#core/index.js';
import type { Onsets } from './score.js';

/** A passage of our own whose digits show a cause, for the right hand; the left hand has the same on the mirrored keys. */
export interface CausePassage {
  readonly cause: CauseName;
  readonly onsets: Onsets;
  /** Where the finding stands: measure and beat. */
  readonly at: readonly [measure: string, beat: number];
  /** Much the same with digits or keys that do not show it. */
  readonly nearMiss: Onsets;
  /** Eighths a minute, and those of the near miss, if others. Default 300. */
  readonly eighths?: number;
  readonly nearMissEighths?: number;
  /** The left hand's own passage, and its near miss, where the keys do not mirror. */
  readonly left?: readonly [onsets: Onsets, nearMiss: Onsets];
}

const times = (count: number, onset: string): string => new Array<string>(count).fill(onset).join(' ');

/** Eighths a minute at which the forearm still follows each note: from five a second on a figure settles. */
const SLOWER = 260;

export const CAUSE_PASSAGES: readonly CausePassage[] = [
  {
    cause: 'between-black-keys',
    // 5 on C sharp takes the hand in, 2 with it.
    onsets: 'G4=2+C5=4 G4=2+C#5=5 G4=2+C5=4 G4=2+C5=4 G4=2+C5=4 G4=2 G4=2+Bb4=3',
    at: ['1', 1.5],
    eighths: SLOWER,
    nearMiss: 'G4=2+C5=4 G4=2+C5=4 G4=2+C5=4 G4=2+C5=4 G4=2+C5=4 G4=2 G4=2+B4=3',
  },
  {
    cause: 'curled',
    // Of two notes in turn the forearm would settle.
    onsets: 'C#5=4 B4=3 C#5=4 A4=2 D#5=5 B4=3 C#5=4',
    at: ['1', 2.5],
    eighths: SLOWER,
    nearMiss: 'C#5=3 B4=2 C#5=3 A4=1 D#5=4 B4=2 C#5=3',
  },
  {
    cause: 'over-reaching',
    onsets: 'G4=3 G4=3+B4=5 G4=3+B4=5 G4=3+B4=5 G4=3+C#5=5 G4=3+B4=5 G4=3 G4=3+B4=5',
    at: ['1', 3],
    eighths: SLOWER,
    nearMiss: 'G4=3 G4=3+B4=5 G4=3+B4=5 G4=3+B4=5 G4=3+C5=5 G4=3+B4=5 G4=3 G4=3+B4=5',
  },
  {
    cause: 'thumb-on-black',
    onsets: 'D4=1 E4=2 F#4=1 G4=2 A4=3 B4=4',
    at: ['1', 2],
    nearMiss: 'D4=1 E4=2 F#4=3 G4=1 A4=2 B4=3',
  },
  {
    cause: 'thumb-late',
    onsets: 'E4=1 F4=2 G4=3 D5=1 E5=2 F5=3',
    at: ['1', 2.5],
    nearMiss: 'F4=1 G4=2 A4=3 D5=1 E5=2 F5=3',
    eighths: 900,
    nearMissEighths: 300,
  },
  {
    cause: 'thumb-under-palm',
    onsets: 'C4=1 D4=2 E4=3 F4=4 A4=1 B4=2 C5=3',
    at: ['1', 3],
    nearMiss: 'C4=1 D4=2 E4=3 F4=4 G4=1 A4=2 B4=3 C5=4',
  },
  {
    cause: 'needless-crossing',
    onsets: 'C4=1 E4=2 G4=1 E4=2 C4=1',
    at: ['1', 2],
    nearMiss: 'C4=1 E4=2 G4=3 C5=1 E5=2 G5=3 C6=5',
  },
  {
    cause: 'long-fingers-cross',
    onsets: 'C4=2 D4=3 E4=2 F4=3 G4=4',
    at: ['1', 2],
    nearMiss: 'C4=2 D4=3 E4=1 F4=2 G4=3',
  },
  {
    cause: 'one-finger-moves',
    onsets: 'C4=1 D4=2 E4=2 F4=3 G4=4',
    at: ['1', 2],
    nearMiss: 'C4=1 D4=2 r:2 E4=2 F4=3 G4=4',
  },
  {
    cause: 'stretch',
    onsets: 'C4=2+A4=5 B3=2+G4=5 C4=2+A4=5',
    at: ['1', 1],
    nearMiss: 'C4=1+A4=5 B3=1+G4=5 C4=1+A4=5',
  },
  {
    cause: 'weak-trill',
    onsets: `${times(5, 'A4=4 B4=5')} A4=4`,
    at: ['1', 1.5],
    nearMiss: `${times(5, 'A4=2 B4=3')} A4=2`,
    eighths: 600,
  },
  {
    cause: 'fast-repetition',
    onsets: times(8, 'A4=2'),
    at: ['1', 1.5],
    nearMiss: times(4, 'A4=3 A4=2'),
    eighths: 600,
  },
  {
    cause: 'scale-fingering',
    onsets: 'C4=1 D4=2 E4=3 F4=1 E4=3 D4=2 C4=1',
    at: ['1', 2.5],
    nearMiss: 'C4=1 D4=2 E4=3 F4=1 G4=2 A4=3 B4=4 C5=5',
    left: ['C5=1 B4=2 A4=3 G4=1 A4=3 B4=2 C5=1', 'C5=1 B4=2 A4=3 G4=1 F4=2 E4=3 D4=4 C4=5'],
  },
  {
    cause: 'unlike',
    onsets:
      'C4=1 D4=2 E4=3 F4=4 G4=5 F4=4 E4=3 D4=2 C4=1 | r:2 | C4=1 D4=2 E4=3 F4=4 G4=4 F4=3 E4=3 D4=2 C4=1',
    at: ['3', 3],
    nearMiss:
      'C4=1 D4=2 E4=3 F4=4 G4=5 F4=4 E4=3 D4=2 C4=1 | r:2 | C4=1 D4=2 E4=3 F4=4 A4=5 F4=3 E4=2 D4=1 C4=1',
  },
  {
    cause: 'unholdable',
    onsets: 'C4=5+E4=1 D4=1+F4=3 E4=1+G4=3',
    at: ['1', 1],
    nearMiss: 'C4=1+E4=3 D4=1+F4=3 E4=1+G4=3',
  },
  {
    cause: 'other-hand',
    onsets: 'C4=3 D4=2 E4=1 F4=2 G4=3',
    at: ['1', 1.5],
    nearMiss: 'C4=1 D4=2 E4=3 F4=4 G4=5',
  },
  {
    cause: 'hand-moves',
    onsets: 'C4=1 G4=5 E4=1 G4=5 C4=1 G4=5 E4=3 G4=5',
    at: ['1', 2],
    nearMiss: 'C4=1 G4=5 E4=3 G4=5 C4=1 G4=5 E4=3 G4=5',
  },
  {
    cause: 'held-key-lost',
    onsets: 'C4=1:8 / r E4=2 G4=4 E4=1 G4=4 E4=2 G4=4 r',
    at: ['1', 2.5],
    nearMiss: 'C4=1:8 / r E4=2 G4=4 E4=2 G4=4 E4=2 G4=4 r',
  },
  {
    cause: 'forearm-travels',
    onsets: 'D4=2 E4=3 F#4=4 E4=3 D4=2',
    at: ['1', 2.5],
    nearMiss: 'D4=1 E4=2 F#4=3 E4=2 D4=1',
  },
];

/** Passages of both hands at once: the right hand's finding, and what the left hand plays meanwhile. */
export const HANDS_IN_THE_WAY = {
  right: 'E4=5:2 F4=1:2 G4=2:2 A4=3:2',
  left: 'C4=1:2 B3=2:2 A3=3:2 G3=4:2',
  /** The same an octave lower, out of the way. */
  far: 'C3=1:2 B2=2:2 A2=3:2 G2=4:2',
} as const;

/**
 * The thumb passes under 2, 3 or 4 while that holds its key, as it does in legato, or takes its key together with it; and the
 * same with the thumb further away than it passes.
 */
export const THUMB_UNDER: readonly (readonly [Onsets, Onsets])[] = [
  ['E4=1 G#4=2:3 C#5=2 D#5=3 / r:2 B4=1:2 r:2', 'E4=1 A4=2:3 F5=2 G5=3 / r:2 D#5=1:2 r:2'],
  ['E4=1 F#4=2 A4=3:2 D5=2 E5=3 / r:3 B4=1:1 r:2', 'E4=1 F#4=2 A4=3:2 G5=2 A5=3 / r:3 E5=1:1 r:2'],
  ['C4=1 D4=2 E4=3 F4=4:3 A4=2 / r:4 G4=1:2 r', 'C4=1 D4=2 E4=3 F4=4:3 D5=2 / r:4 C5=1:2 r'],
  ['C#5=2 A4=1 G#4=2+B4=1 C#5=2', 'C#5=2 A4=1 G#4=2+E5=1 C#5=2'],
];

/** Twenty passages fingered as a teacher would, for the right hand: scales, arpeggios, five-finger figures, chords. */
export const GOOD_PASSAGES: readonly Onsets[] = [
  'C4=1 D4=2 E4=3 F4=1 G4=2 A4=3 B4=4 C5=5 B4=4 A4=3 G4=2 F4=1 E4=3 D4=2 C4=1',
  'G4=1 A4=2 B4=3 C5=1 D5=2 E5=3 F#5=4 G5=5 F#5=4 E5=3 D5=2 C5=1 B4=3 A4=2 G4=1',
  'D4=1 E4=2 F#4=3 G4=1 A4=2 B4=3 C#5=4 D5=5 C#5=4 B4=3 A4=2 G4=1 F#4=3 E4=2 D4=1',
  'A3=1 B3=2 C#4=3 D4=1 E4=2 F#4=3 G#4=4 A4=5 G#4=4 F#4=3 E4=2 D4=1 C#4=3 B3=2 A3=1',
  'E4=1 F#4=2 G#4=3 A4=1 B4=2 C#5=3 D#5=4 E5=5 D#5=4 C#5=3 B4=2 A4=1 G#4=3 F#4=2 E4=1',
  'F4=1 G4=2 A4=3 Bb4=4 C5=1 D5=2 E5=3 F5=4 E5=3 D5=2 C5=1 Bb4=4 A4=3 G4=2 F4=1',
  'C4=1 D4=2 E4=3 F4=4 G4=5 F4=4 E4=3 D4=2 C4=1',
  'G4=1 A4=2 B4=3 C5=4 D5=5 C5=4 B4=3 A4=2 G4=1',
  'C4=1 E4=2 G4=3 C5=5 G4=3 E4=2 C4=1',
  'C4=1 E4=2 G4=3 C5=1 E5=2 G5=3 C6=5 G5=3 E5=2 C5=1 G4=3 E4=2 C4=1',
  'C4=1 G4=5 E4=3 G4=5 C4=1 G4=5 E4=3 G4=5',
  'D4=1 A4=5 F#4=3 A4=5 D4=1 A4=5 F#4=3 A4=5',
  'C4=1+E4=3 D4=2+F4=4 E4=3+G4=5 D4=2+F4=4 C4=1+E4=3',
  'C4=1+C5=5 D4=1+D5=5 E4=1+E5=5 F4=1+F5=5 E4=1+E5=5 D4=1+D5=5 C4=1+C5=5',
  'C4=1+E4=3+G4=5 r C4=1+F4=4+A4=5 r C4=1+E4=3+G4=5 r',
  'E4=1 F4=2 E4=1 F4=2 G4=3 F4=2 E4=1',
  'A4=3 B4=4 C5=5 B4=4 A4=3 G4=2 F4=1',
  'D4=1 E4=2 F#4=3 E4=2 D4=1',
  'C4=1 E4=3 D4=2 F4=4 E4=3 G4=5 F4=4 D4=2 C4=1',
  'G4=5 F4=4 E4=3 D4=2 C4=1 D4=2 E4=3 F4=4 G4=5',
];
