import type { Warning } from '../score/errors.js';
import type { Hand } from '../score/model.js';

export const LAYERS = ['depth', 'crossing', 'carry', 'contour', 'roll'] as const;
export const DENSITIES = ['every', 'essential', 'demanding'] as const;
export const LANGUAGE_CODES = ['en', 'de', 'fr', 'es', 'it'] as const;

/** Kinds of cues. */
export type Layer = (typeof LAYERS)[number];
/** every: each change; essential: those that matter; demanding: those of hard places. */
export type Density = (typeof DENSITIES)[number];
export type Language = (typeof LANGUAGE_CODES)[number];
/** A span of the hand from 1 to 5: millimetres, an interval such as `9th`, or a preset. */
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
  /** Hands to mark. Default both. */
  readonly hands?: 'both' | Hand;
  /** Ids of the parts to mark. Default: every piano part found. */
  readonly parts?: readonly string[];
  /** Staff number for each hand, or one hand for a single staff. Default right 1, left 2. */
  readonly staff?: { readonly right?: readonly number[]; readonly left?: readonly number[] };
  readonly span?: SpanOption | { readonly right?: SpanOption; readonly left?: SpanOption };
  /** Printed measure numbers, first and last inclusive; everything is analysed, only these are marked. */
  readonly measures?: { readonly from: string; readonly to: string };
  readonly layers?: readonly Layer[];
  readonly density?: Density;
  readonly language?: Language;
  /** Wording of single cues that replaces the language's own, by cue key. */
  readonly wording?: Readonly<Record<string, string>>;
  /** Print a legend of the cues at the head of the score. Default false. */
  readonly legend?: boolean;
  /** all: on every note; sparse: where the plain five-finger rule would read another finger. Default all. */
  readonly digits?: 'all' | 'sparse' | 'none';
  /** keep: constraints; ignore: left in print but not used; replace: ours take their place, recoverably. */
  readonly existing?: 'keep' | 'ignore' | 'replace';
  /** Second choices to print for a note at most, those that cost at most 8 mm equivalents more. Default 0. */
  readonly alternatives?: number;
  /** Turn warnings into refusals. */
  readonly strict?: boolean;
  readonly limits?: Partial<Limits>;
}

/** One slice of the report, for explanation and display. */
export interface SliceReport {
  readonly measure: string;
  /** Beat within the measure, from 1, in quarter notes. */
  readonly beat: number;
  readonly keys: readonly number[];
  readonly fingers: readonly (number | null)[];
  /** Second choices for every key, where they were asked for. */
  readonly alternates?: readonly (readonly number[])[];
  /** mm equivalents by term. */
  readonly terms: Readonly<Record<string, number>>;
  readonly depth: number;
  readonly depthChange: number;
  readonly reason: string;
  readonly crossing?: string;
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

export interface LineReport {
  readonly part: string;
  readonly hand: Hand;
  readonly notes: number;
  /** Note heads that got a digit of ours. */
  readonly fingered: number;
  /** Note heads whose digit the file itself prints and keeps. */
  readonly kept: number;
  readonly cues: number;
  readonly crossings: number;
  readonly depthTravel: number;
  readonly cost: number;
  readonly slices: readonly SliceReport[];
  /** Printed numbers of the measures with the highest cost a note, worst first. */
  readonly hardest: readonly { readonly measure: string; readonly cost: number }[];
  /** Doubts about the motion, such as an arm that cannot be clear of the thumb in time. */
  readonly findings: readonly Finding[];
  /** Chords that the hand cannot reach as written, with the usual ways out. */
  readonly unreachable: readonly Unreachable[];
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
