import { optionError } from '../../score/errors.js';
import { CHORDS, type ChordKind } from './chords.js';
import { type Interval, inDegreeOctave, keyOf, LETTERS, type Pitch, spelled, transposed } from './pitch.js';
import { type Mode, SCALES, type ScaleKind } from './scales.js';
import { inOctave, majorFifths, SPELLINGS, type Tonic, tonicName } from './tonic.js';

/** Sharps or flats of the largest signature. */
const MOST_FIFTHS = 7;

/** A ladder of notes through all octaves: a scale, or the notes of a chord. */
export interface Ladder {
  readonly tonic: Tonic;
  /** Notes of an octave. */
  readonly size: number;
  /** Sharps of the signature, flats negative. */
  readonly fifths: number;
  readonly mode?: Mode;
  /** The note at a place: 0 is the tonic in an octave, `size` the next one above. */
  readonly at: (place: number, octave: number, direction: 'up' | 'down') => Pitch;
}

interface Form {
  readonly up: readonly Interval[];
  readonly down?: readonly Interval[];
  readonly respelled?: readonly (readonly Interval[])[];
  readonly signature?: number;
  readonly mode?: Mode;
}

const chordForm = (kind: ChordKind): Form => {
  const { notes, ...rest } = CHORDS[kind];
  return { ...rest, up: notes };
};

/** @throws HandlineError OPTION where the key would need more than seven sharps or flats */
export function scaleLadder(tonic: Tonic, kind: ScaleKind): Ladder {
  const ladder = ladderOf(tonic, SCALES[kind], kind);
  if (kind !== 'chromatic') return ladder;
  return { ...ladder, at: (place, octave, direction) => chromatic(tonic, place, octave, direction) };
}

/** @throws HandlineError OPTION where the key would need more than seven sharps or flats */
export function chordLadder(root: Tonic, kind: ChordKind): Ladder {
  return ladderOf(root, chordForm(kind), kind);
}

/** The twelve tonics, each in the spelling with the smaller signature, else with fewer accidentals, else in flats. */
export function allTonics(kind: ScaleKind | { readonly chord: ChordKind }): readonly Tonic[] {
  const form = typeof kind === 'string' ? SCALES[kind] : chordForm(kind.chord);
  const weight = (tonic: Tonic): number => {
    const alters = altersOf(tonic, rowOn(tonic, form));
    const doubles = alters.filter((alter) => alter > 1).length;
    return (
      1000 * Math.abs(fifthsOf(tonic, form)) + 100 * doubles + alters.reduce((sum, alter) => sum + alter, 0)
    );
  };
  return SPELLINGS.map((spellings) =>
    // The flat one comes first where both weigh the same.
    [...spellings]
      .sort((a, b) => a.alter - b.alter)
      .reduce((best, own) => (weight(own) < weight(best) ? own : best)),
  );
}

function fifthsOf(tonic: Tonic, { signature }: Form): number {
  return signature === undefined ? 0 : majorFifths(tonic) + signature;
}

/** The first spelling of a scale with the fewest double accidentals. */
function rowOn(tonic: Tonic, { up, respelled = [] }: Form): readonly Interval[] {
  const doubles = (row: readonly Interval[]) => altersOf(tonic, row).filter((alter) => alter > 1).length;
  return respelled.reduce((best, row) => (doubles(row) < doubles(best) ? row : best), up);
}

function altersOf(tonic: Tonic, row: readonly Interval[]): readonly number[] {
  return row.map((own) => Math.abs(transposed(inOctave(tonic, 4), own).alter));
}

function ladderOf(tonic: Tonic, form: Form, kind: string): Ladder {
  const fifths = fifthsOf(tonic, form);
  if (Math.abs(fifths) > MOST_FIFTHS) {
    const signs = `${Math.abs(fifths)} ${fifths > 0 ? 'sharps' : 'flats'}`;
    const other = SPELLINGS.flat().find(
      (own) =>
        keyOf(inOctave(own, 4)) % 12 === (keyOf(inOctave(tonic, 4)) + 12) % 12 &&
        Math.abs(fifthsOf(own, form)) <= MOST_FIFTHS,
    );
    throw optionError(
      'keys',
      `${tonicName(tonic)} ${kind} would need ${signs}; give ${other ? tonicName(other) : 'another key'}`,
    );
  }
  const size = form.up.length;
  const up = rowOn(tonic, form);
  return {
    tonic,
    size,
    fifths,
    ...(form.mode && { mode: form.mode }),
    at: (place, octave, direction) => {
      const intervals = (direction === 'down' && form.down) || up;
      return inDegreeOctave(inOctave(tonic, octave), intervals, place);
    },
  };
}

/**
 * Black keys as sharps on the way up and flats on the way down; in a key with a flat or sharp in its name all as flats or
 * sharps (common practice).
 */
function chromatic({ step, alter }: Tonic, place: number, octave: number, direction: 'up' | 'down'): Pitch {
  const start = inOctave({ step, alter }, octave);
  const key = keyOf(start) + place;
  const sharps = alter === 0 ? direction === 'up' : alter > 0;
  // The tonic itself keeps its letter (C flat, E sharp).
  if (((place % 12) + 12) % 12 === 0) return spelled(key, start.diatonic + (LETTERS * place) / 12);
  const white = NATURAL_KEYS.has(((key % 12) + 12) % 12) ? key : key + (sharps ? -1 : 1);
  const letter = [...NATURAL_KEYS].indexOf(((white % 12) + 12) % 12);
  return spelled(key, LETTERS * (Math.floor(white / 12) - 1) + letter);
}

/** Semitones of the white keys above C, from C to B. */
const NATURAL_KEYS: ReadonlySet<number> = new Set([0, 2, 4, 5, 7, 9, 11]);
