import type { Fraction } from '../numeric/fraction.js';
import type { Warning } from '../score/errors.js';
import type { Finger, Hand } from '../score/model.js';

/**
 * Version of the report's form, by semantic versioning: the first number changes where a program that reads the report may
 * have to change, the second where something is added, the third where a description is corrected.
 */
export const REPORT_VERSION = '2.0.0';

/** One note head of a slice. Its part is the line's, its measure and beat are the slice's. */
export interface NoteReport {
  /** MIDI number of the key, 21 ... 108. */
  readonly key: number;
  /** 1, the thumb, to 5; null where no finger of the hand can take it. */
  readonly finger: Finger | null;
  /**
   * Whose digit is in print at the head, or at the other voice's in a unison on one staff: ours, one that the file gives and
   * keeps, or none.
   */
  readonly digit: 'ours' | 'given' | 'none';
  /** Number of the staff, from 1. */
  readonly staff: number;
  /** `<voice>` as the file has it. */
  readonly voice: string;
  /** Line of the `<note>` in the score without our marks, as `clear` gives it: in the input where it has none. From 1. */
  readonly line: number;
  /** Offset of the `<note>` in the same text, in UTF-16 code units, byte-order mark not counted. */
  readonly offset: number;
}

/** The next best finger of a key. */
export interface NextBest {
  /** 1, the thumb, to 5. */
  readonly finger: Finger;
  /** What the best fingering of the whole line with that finger costs more than the one in print, in mm equivalents. */
  readonly cost: number;
}

/** One slice of the report, for explanation and display. */
export interface SliceReport {
  /** Place in the hand's line, from 0, grace notes counted: the index in `ReadLine.line.slices`. */
  readonly index: number;
  /** Number of the measure as printed; several measures may have the same. */
  readonly measure: string;
  /** Place of the measure in the part, from 0. */
  readonly measureIndex: number;
  /**
   * Beat within the measure as people count it: from 1, in the note value that the time signature counts (quarters in 4/4,
   * eighths in 6/8, halves in 2/2); a pickup is counted as the end of a whole measure, so that its last quarter in 4/4 is 4.
   * A grace note has that of its main note.
   */
  readonly beat: number;
  /** Quarter notes from the measure's own start, exactly, from 1, in a pickup too. */
  readonly exactBeat: Fraction;
  /** Where the slice is a grace note: its place among those before the main note, from 0. */
  readonly grace?: number;
  /** MIDI numbers of the struck keys, 21 ... 108, lowest first. */
  readonly keys: readonly number[];
  /** By key: 1, the thumb, to 5; null where no finger of the hand can take it. */
  readonly fingers: readonly (number | null)[];
  /** The note heads that strike the keys, in the order of `keys`. */
  readonly notes: readonly NoteReport[];
  /**
   * With `nextBest`: by key; null where no other finger is possible. Why: `fingers` has null there, too, where no finger of the
   * hand reaches the key; `digit` is `given` where a digit in print leaves no choice; else no other finger can take it.
   */
  readonly nextBest?: readonly (NextBest | null)[];
  /** Second choices for every key, best first, where they were asked for. */
  readonly alternates?: readonly (readonly number[])[];
  /** Cost by term, in mm equivalents of sideways hand travel; terms that may favour a fingering can be negative. */
  readonly terms: Readonly<Record<string, number>>;
  /** Movement into this slice and discomfort in it, mechanics alone, in mm; never negative. */
  readonly movement: number;
  /** Sum of `terms`; below zero where editors print the fingers more often than their movement suggests. */
  readonly usage: number;
  /** Forearm depth, mm from the keys' front edge towards the fallboard: where the tip of a naturally curved 3 would be. */
  readonly depth: number;
  /** mm since the previous slice: positive in, negative out, 0 at the first. */
  readonly depthChange: number;
  /**
   * Why the depth changes, in the language asked for, with keys as the score writes them; empty where it does not. At a cue in or
   * out, why the move is made that begins there.
   */
  readonly reason: string;
  /** Sideways place of the arm, mm from D4, positive towards the treble. */
  readonly arm: number;
  /** Height of the wrist above its level at the thumb, mm. */
  readonly contour: number;
  /** Roll of the forearm: -1 fully towards the thumb ... 1 fully towards 5. */
  readonly roll: number;
  /** Kind, fingers and direction, such as `thumb-passing 3-1 up`. */
  readonly crossing?: string;
  /** Text of the cue that is printed here. */
  readonly cue?: string;
}

/** A doubt about one place of a hand. */
export interface Finding {
  /** Number of the measure as printed. */
  readonly measure: string;
  /** Beat within the measure, as `SliceReport.beat`. */
  readonly beat: number;
  /** One line for people, in English. */
  readonly message: string;
}

/** A chord beyond the hand. Keys are MIDI numbers; `message` names them and the ways out. */
export interface Unreachable extends Finding {
  /** All keys of the chord, lowest first. */
  readonly keys: readonly number[];
  /** Keys left without a finger. */
  readonly left: readonly number[];
  /** Keys that the other hand can take easily, so that the rest lies within reach. */
  readonly otherHand: readonly number[];
  /** What can be done, the easiest first. */
  readonly ways: readonly ('other-hand' | 'roll' | 'omit')[];
}

/** A chord beyond one hand of which the other takes a part. */
export interface Shared extends Finding {
  /** The hand that takes the keys. */
  readonly takenBy: Hand;
  /** MIDI numbers of the keys that it takes, lowest first. */
  readonly keys: readonly number[];
}

/** The chosen measures of one hand of one part. */
export interface LineReport {
  /** Id of the part. */
  readonly part: string;
  /** Whose line it is. */
  readonly hand: Hand;
  /** Note heads that the hand strikes. */
  readonly notes: number;
  /** Note heads that got a digit of ours. */
  readonly fingered: number;
  /** Note heads whose digit the file itself prints and keeps. */
  readonly kept: number;
  /** Places with a cue. */
  readonly cues: number;
  /** Crossings of the thumb and of the hands, with a cue or without. */
  readonly crossings: number;
  /** Forearm travel in and out together, mm. */
  readonly depthTravel: number;
  /** Movement of all slices, mm. */
  readonly movement: number;
  /** Sum of `terms` of all slices, mm equivalents. */
  readonly usage: number;
  /** Every onset of the hand, in printed order. */
  readonly slices: readonly SliceReport[];
  /** The measures with the most movement a key, in mm, worst first; at most five. */
  readonly hardest: readonly {
    /** Number of the measure as printed. */
    readonly measure: string;
    /** Movement a key, mm. */
    readonly movement: number;
  }[];
  /** Doubts about the motion, such as an arm that cannot be clear of the thumb in time. */
  readonly findings: readonly Finding[];
  /** Chords that the hand cannot reach as written, with the usual ways out. */
  readonly unreachable: readonly Unreachable[];
  /** With `shareHands`: chords of which this hand gives a part to the other, or takes one; they are not unreachable. */
  readonly shared?: readonly Shared[];
}

/** What `annotate` found and did: plain data, which can be written as JSON or sent to another thread. */
export interface Report {
  /** Version of this form, as `REPORT_VERSION`. */
  readonly version: string;
  /** The hands that were asked for, right before left, part by part. */
  readonly lines: readonly LineReport[];
  /** What the user should know, the file's before the hands'. */
  readonly warnings: readonly Warning[];
  /** The usual caution about pain and injury, in the chosen language. */
  readonly caution: string;
}

/**
 * One slice as a row: place of its measure in the part, from 0; exact beat, from 1, such as `5/2`; keys; fingers; depth in
 * mm; the cue, where there is one. All as in `SliceReport`.
 */
export type CompactSlice =
  | readonly [
      measureIndex: number,
      beat: string,
      keys: readonly number[],
      fingers: readonly (number | null)[],
      depth: number,
    ]
  | readonly [
      measureIndex: number,
      beat: string,
      keys: readonly number[],
      fingers: readonly (number | null)[],
      depth: number,
      cue: string,
    ];

/** One hand of one part in a compact report. */
export interface CompactLine {
  /** Id of the part. */
  readonly part: string;
  /** Whose line it is. */
  readonly hand: Hand;
  /** Every onset of the hand, in printed order. */
  readonly slices: readonly CompactSlice[];
}

/** What `compactReport` gives. */
export interface CompactReport {
  /** Version of this form, as `REPORT_VERSION`. */
  readonly version: string;
  /** As in `Report`. */
  readonly lines: readonly CompactLine[];
  /** As in `Report`. */
  readonly warnings: readonly Warning[];
  /** As in `Report`. */
  readonly caution: string;
}
