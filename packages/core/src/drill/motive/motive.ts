import { optionError } from '../../score/errors.js';
import type { Hand } from '../../score/model.js';
import { offKeyboard } from '../patterns/range.js';
import type { Step } from '../sheet.js';
import type { Ladder } from '../theory/keys.js';
import { isOnKeyboard, keyOf, type Pitch, spelled } from '../theory/pitch.js';

/** A note of a motive: its place on the scale, 0 for the tonic in the motive's own octave, and what alters it. */
export interface MotiveNote {
  readonly place: number;
  /** Semitones. */
  readonly alter: number;
}

/** What a hand strikes at once; without notes a rest. */
export interface MotiveStep {
  readonly notes: readonly MotiveNote[];
  /** Its length, where the motive has a rhythm of its own. */
  readonly ticks?: number;
}

/** A motive freed of its key. */
export type Motive = Readonly<Record<Hand, readonly MotiveStep[]>>;

const MOST_ALTER = 2;

/**
 * The motive in a key.
 *
 * @param octaves in which each hand's place 0 lies
 * @param shift places by which the motive is moved along the scale
 * @throws HandlineError OPTION where a note would lie beyond the keyboard
 */
export function realized(
  motive: Motive,
  ladder: Ladder,
  octaves: Readonly<Record<Hand, number>>,
  shift = 0,
): Readonly<Record<Hand, readonly Step[]>> {
  const steps = (hand: Hand) =>
    motive[hand].map(({ notes, ticks }): Step => {
      const pitches = notes.map((note) => pitchOf(note, ladder, octaves[hand], shift)).sort(byKey);
      return { pitches, ...(ticks !== undefined && { ticks }) };
    });
  return { right: steps('right'), left: steps('left') };
}

function pitchOf({ place, alter }: MotiveNote, ladder: Ladder, octave: number, shift: number): Pitch {
  const natural = ladder.at(place + shift, octave, 'up');
  const pitch = written({ ...natural, alter: natural.alter + alter });
  if (!isOnKeyboard(pitch)) throw offKeyboard(pitch);
  return pitch;
}

/** Nothing is altered more than doubly: it is written on the next letter instead. */
function written(pitch: Pitch): Pitch {
  if (Math.abs(pitch.alter) <= MOST_ALTER) return pitch;
  return spelled(keyOf(pitch), pitch.diatonic + Math.sign(pitch.alter));
}

function byKey(a: Pitch, b: Pitch): number {
  return keyOf(a) - keyOf(b);
}

/** Lowest and highest place of either hand. */
export function placesOf(motive: Motive): { readonly least: number; readonly most: number } {
  const places = [...motive.right, ...motive.left].flatMap(({ notes }) => notes.map(({ place }) => place));
  if (places.length === 0) {
    throw optionError('motive', 'it has no notes; give at least one');
  }
  return { least: Math.min(...places), most: Math.max(...places) };
}
