import { LANGUAGES } from '../../cues/wording.js';
import { type Line, type Slice, writtenAs } from '../../hands/line.js';
import { spellingFor } from '../../keyboard/key-names.js';
import type { Language } from '../../options/options.js';
import { beatInMeasure } from '../../score/beat.js';
import type { Part } from '../../score/model.js';
import type { At, NoteAt } from '../report-types.js';

/** The part that a line is played from, and how its keys are named. */
export interface Place {
  readonly part: Part;
  readonly language: Language;
  /** What the player's other hand plays. */
  readonly otherLine?: Line;
}

export function atOf({ part }: Pick<Place, 'part'>, { measure, onset }: Slice): At {
  const own = part.measures[measure]!;
  return { measure: own.number, beat: Math.round(beatInMeasure(own, onset) * 1000) / 1000 };
}

/** @param key MIDI number of one of the slice's keys */
export function noteOf(place: Place, slice: Slice, key: number): NoteAt {
  const own =
    slice.struck.find((other) => other.key === key) ?? slice.held.find((other) => other.key === key);
  const { start, end } = place.part.notes[own!.notes[0]!]!.span;
  return { ...atOf(place, slice), key, name: nameOf(place.language, slice, key), note: { start, end } };
}

/** A key as the score writes it, without octave. */
export function nameOf(language: Language, slice: Slice, key: number): string {
  const { step, alter } = spellingFor(key, writtenAs(slice, key));
  return LANGUAGES[language].reasons.noteName(step, alter);
}
