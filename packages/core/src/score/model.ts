import type { Fraction } from '../numeric/fraction.js';

/** Offsets into the original text in UTF-16 code units: `start` inclusive, `end` exclusive. */
export interface Span {
  /** First code unit. */
  readonly start: number;
  /** Behind the last one. */
  readonly end: number;
}

/** A hand of the player. */
export type Hand = 'right' | 'left';

/** 1 = thumb ... 5 = little finger. */
export type Finger = 1 | 2 | 3 | 4 | 5;

/** A `<fingering>` that the file already has. */
export interface PrintedDigit {
  readonly finger: Finger;
  readonly substitution: boolean;
  readonly alternate: boolean;
  readonly span: Span;
}

export type TieRole = 'none' | 'start' | 'stop' | 'both';

/** Ornaments that make the hand play more than the written key. */
export type Ornament =
  | 'trill-mark'
  | 'turn'
  | 'delayed-turn'
  | 'inverted-turn'
  | 'mordent'
  | 'inverted-mordent'
  | 'tremolo'
  | 'tremolo-start'
  | 'tremolo-stop';

/** One `<note>` other than a rest, a cue note or an unpitched note, in document order. */
export interface Note {
  /** Index in `Part.notes`. */
  readonly id: number;
  readonly span: Span;
  readonly line: number;
  readonly column: number;
  readonly measure: number;
  readonly staff: number;
  readonly voice: string;
  /** Quarter notes from the start of the part in printed order; grace notes carry the onset of their main note. */
  readonly onset: Fraction;
  /** Sounding length in quarter notes as written on this note head (ties are not merged); zero for grace notes. */
  readonly duration: Fraction;
  /** Sounding MIDI key number, 21 (A0) ... 108 (C8). */
  readonly key: number;
  /** Place on the staff as written: 7 x octave + step, C = 0 ... B = 6. */
  readonly diatonic: number;
  readonly chord: boolean;
  /** Place within a run of grace notes before the main note, counted from 0; -1 for a note that is none. */
  readonly grace: number;
  readonly tie: TieRole;
  /** Id of the note whose key this one merely holds on (a tie's end with a matching beginning); -1 where struck. */
  readonly tiedFrom: number;
  /** Which run of notes between two `<backup>` or `<forward>` elements of its measure, counted through the part. */
  readonly run: number;
  readonly digits: readonly PrintedDigit[];
  /** Several digits printed at this head, from the top of the stack down, which may belong to its whole chord; else empty. */
  readonly stack: readonly Finger[];
  /** Staccato or staccatissimo. */
  readonly staccato: boolean;
  readonly fermata: boolean;
  readonly slurStart: boolean;
  readonly slurStop: boolean;
  readonly arpeggiate: boolean;
  readonly ornaments: readonly Ornament[];
  /** Explicit hand from words such as "m.s." that govern this note, if any. */
  readonly handWord?: Hand;
}

export interface Measure {
  readonly index: number;
  /** The `number` attribute as printed. */
  readonly number: string;
  readonly start: Fraction;
  readonly length: Fraction;
  readonly span: Span;
  readonly line: number;
  /** Quarter notes per beat of the time signature in force (1 for 4/4, 3/2 for 6/8). */
  readonly beat: Fraction;
  /** Quarter notes of the value that the time signature counts (1/2 for 6/8, 2 for 2/2). */
  readonly unit: Fraction;
  /** Length that the time signature asks for; a pickup is shorter. */
  readonly nominal: Fraction;
  /** True where the measure is not counted (pickup, second half of a split measure). */
  readonly implicit: boolean;
}

/** First clef of a staff. */
export interface Clef {
  readonly sign: string;
  readonly line: number;
}

/** A stretch with the damper pedal down, in quarter notes. */
export interface PedalSpan {
  readonly from: Fraction;
  readonly to: Fraction;
}

export interface TempoMark {
  readonly at: Fraction;
  /** Quarter notes a minute. */
  readonly quartersPerMinute: number;
}

/** A stretch of a measure that is played in one go: a whole measure, or a piece before, after or between its inner barlines. */
export interface Stretch {
  readonly measure: number;
  /** Quarter notes from the start of the part in printed order, `to` exclusive. */
  readonly from: Fraction;
  readonly to: Fraction;
}

/** The other one of two parts of one staff each that a brace joins into one instrument. */
export interface PartnerStaff {
  /** Index in `Score.parts`. */
  readonly part: number;
  readonly lies: 'above' | 'below';
}

export interface Part {
  readonly id: string;
  readonly name: string;
  readonly index: number;
  readonly staves: number;
  /** The other staff, where an instrument is written as two parts of one staff each, joined by a brace. */
  readonly partner?: PartnerStaff;
  /** True where names, sounds or MIDI programs say keyboard, or where two or more staves do. */
  readonly keyboard: boolean;
  /** First clef of every staff, staff 1 first; a staff without one has G, or F where it is the lowest of several. */
  readonly clefs: readonly Clef[];
  readonly measures: readonly Measure[];
  readonly notes: readonly Note[];
  readonly pedal: readonly PedalSpan[];
  /** What is played one after the other: repeats, voltas, D.C., D.S. and coda unfolded, also within measures. */
  readonly playingOrder: readonly Stretch[];
}

export interface Score {
  readonly version: string;
  readonly parts: readonly Part[];
  readonly tempo: readonly TempoMark[];
}
