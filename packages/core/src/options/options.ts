import type { Warning } from '../score/errors.js';
import type { Hand } from '../score/model.js';

export const LAYERS = ['depth', 'crossing', 'carry', 'contour', 'roll'] as const;
export const DENSITIES = ['every', 'essential', 'demanding'] as const;
export const LANGUAGE_CODES = ['en', 'de', 'fr', 'es', 'it'] as const;

/** Kinds of cues. */
export type Layer = (typeof LAYERS)[number];
/** every: each change; essential: those that matter; demanding: those of hard places. */
export type Density = (typeof DENSITIES)[number];
/** What fingers are chosen by: `usage`, movement and what editors usually print; or `movement` alone, in mm. */
export type Criterion = 'usage' | 'movement';
export const CRITERIA: readonly Criterion[] = ['usage', 'movement'];
export type Language = (typeof LANGUAGE_CODES)[number];
/**
 * Widest distance from the tip of 1 to that of 5: mm (140 ... 300), an interval from `7th` to `12th`, or small, medium or
 * large.
 */
export type SpanOption = number | string;

/** Limits against hostile input: numbers above 0. */
export interface Limits {
  /** Bytes of a file, and of the score within an archive; a text counts as in UTF-8. At most 500,000,000. */
  readonly maxBytes: number;
  /** Elements within one another. At most 1000. */
  readonly maxDepth: number;
  /** Notes in one score. */
  readonly maxNotes: number;
  /** Uncompressed : compressed bytes of one archive entry. */
  readonly maxRatio: number;
}

/** What `annotate` takes; everything is optional and checked in one place. */
export interface AnnotateOptions {
  /** Name of the file for messages. */
  readonly file?: string;
  /** Hands to mark; both are analysed. Default both. */
  readonly hands?: 'both' | Hand;
  /** Ids of the parts to mark. Default: every piano part found. */
  readonly parts?: readonly string[];
  /** Staff number for each hand, or one hand for a single staff. Default right 1, left 2. */
  readonly staff?: { readonly right?: readonly number[]; readonly left?: readonly number[] };
  /** Span of the hand, or of each hand. Default medium. */
  readonly span?: SpanOption | { readonly right?: SpanOption; readonly left?: SpanOption };
  /** Printed measure numbers, first and last inclusive; everything is analysed, only these are marked. */
  readonly measures?: { readonly from: string; readonly to: string };
  /** What the fingers are chosen by. Default usage. */
  readonly by?: Criterion;
  /** Kinds of cues to print; an empty list prints none. Default depth and crossing. */
  readonly layers?: readonly Layer[];
  /**
   * How near a reader of the cues stays to the plan: within 5 mm (every), 16 mm (essential) or 22 mm (demanding) at eighth
   * notes at 120 quarter notes a minute and slower, up to twice that at speed. Default essential.
   */
  readonly density?: Density;
  /** Language of the cues, the legend and the caution. Default en. */
  readonly language?: Language;
  /** Wording of single cues that replaces the language's own, by cue key. */
  readonly wording?: Readonly<Record<string, string>>;
  /** Print a legend of the cues at the head of the score. Default false. */
  readonly legend?: boolean;
  /** all: on every note; sparse: where the plain five-finger rule would read another finger. Default all. */
  readonly digits?: 'all' | 'sparse' | 'none';
  /**
   * Digits in print. keep: constraints; ignore: left but not used; replace: ours take their place, recoverably. Default
   * keep.
   */
  readonly existing?: 'keep' | 'ignore' | 'replace';
  /**
   * Where one hand cannot reach all keys of a chord and the other takes the rest easily, it does: the notes stay as they
   * are, with the digits of the hand that takes them and l.h. or r.h. (as the language has it) in print. A note keeps to
   * its hand where its digit stays in print, or where the file says whose it is; so do the staves of an instrument that
   * is written as two parts. Default false.
   */
  readonly shareHands?: boolean;
  /** Most second choices to print for a note, 0 ... 9; none costs more than 8 mm equivalents more. Default 0. */
  readonly alternatives?: number;
  /** Turn warnings into refusals. Default false. */
  readonly strict?: boolean;
  /** Limits that differ from the defaults. */
  readonly limits?: Partial<Limits>;
}

/** One slice of the report, for explanation and display. */
export interface SliceReport {
  readonly measure: string;
  /** Beat within the measure, from 1, in quarter notes. */
  readonly beat: number;
  /** MIDI numbers of the struck keys, 21 ... 108, lowest first. */
  readonly keys: readonly number[];
  /** By key: 1, the thumb, to 5; null where no finger of the hand can take it. */
  readonly fingers: readonly (number | null)[];
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
  /** Why the depth changes, in the language asked for, with keys as the score writes them; empty where it does not. */
  readonly reason: string;
  /** Kind, fingers and direction, such as `thumb-passing 3-1 up`. */
  readonly crossing?: string;
  /** Text of the cue that is printed here. */
  readonly cue?: string;
}

/** A doubt about one place of a hand. */
export interface Finding {
  readonly measure: string;
  /** Beat within the measure, from 1, in quarter notes. */
  readonly beat: number;
  readonly message: string;
}

/** A chord beyond the hand. Keys are MIDI numbers; `message` names them and the ways out. */
export interface Unreachable extends Finding {
  readonly keys: readonly number[];
  /** Keys left without a finger. */
  readonly left: readonly number[];
  /** Keys that the other hand can take easily, so that the rest lies within reach. */
  readonly otherHand: readonly number[];
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
  readonly hand: Hand;
  /** Note heads that the hand strikes. */
  readonly notes: number;
  /** Note heads that got a digit of ours. */
  readonly fingered: number;
  /** Note heads whose digit the file itself prints and keeps. */
  readonly kept: number;
  readonly cues: number;
  readonly crossings: number;
  /** Forearm travel in and out together, mm. */
  readonly depthTravel: number;
  /** Movement of all slices, mm. */
  readonly movement: number;
  /** Sum of `terms` of all slices, mm equivalents. */
  readonly usage: number;
  readonly slices: readonly SliceReport[];
  /** Printed numbers of the measures with the most movement a key, in mm, worst first; at most five. */
  readonly hardest: readonly { readonly measure: string; readonly movement: number }[];
  /** Doubts about the motion, such as an arm that cannot be clear of the thumb in time. */
  readonly findings: readonly Finding[];
  /** Chords that the hand cannot reach as written, with the usual ways out. */
  readonly unreachable: readonly Unreachable[];
  /** With `shareHands`: chords of which this hand gives a part to the other, or takes one; they are not unreachable. */
  readonly shared?: readonly Shared[];
}

export interface Report {
  readonly lines: readonly LineReport[];
  readonly warnings: readonly Warning[];
  /** The usual caution about pain and injury, in the chosen language. */
  readonly caution: string;
}

/** `output` has the form of the input: text for text, bytes for bytes (same encoding, same archive). */
export interface Annotated<T extends string | Uint8Array> {
  readonly output: T;
  readonly report: Report;
}

/** What `clear` takes. */
export type ClearOptions = Pick<AnnotateOptions, 'file' | 'limits'>;

/** `output` has the form of the input, as with `Annotated`. */
export interface Cleared<T extends string | Uint8Array> {
  readonly output: T;
  /** Marks that were changed since and therefore left, and digits that cannot be put back. */
  readonly warnings: readonly Warning[];
}

/** What `readLines` and `planDigits` take: the options of `annotate` that say what is read and for which hands. */
export type LineOptions = Pick<AnnotateOptions, 'file' | 'parts' | 'staff' | 'span' | 'limits'>;
