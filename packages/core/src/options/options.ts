import type { Warning } from '../score/errors.js';
import type { Hand } from '../score/model.js';
import type { Report } from './report.js';

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
/** Languages of the cues, the reasons, the legend and the caution. */
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
  readonly staff?: {
    /** Staves of the right hand, from 1. */
    readonly right?: readonly number[];
    /** Staves of the left hand, from 1. */
    readonly left?: readonly number[];
  };
  /** Span of the hand, or of each hand. Default medium. */
  readonly span?:
    | SpanOption
    | {
        /** Of the right hand. Default medium. */
        readonly right?: SpanOption;
        /** Of the left hand. Default medium. */
        readonly left?: SpanOption;
      };
  /** Printed measure numbers, first and last inclusive; everything is analysed, only these are marked. */
  readonly measures?: {
    /** The first measure with this number. */
    readonly from: string;
    /** The last measure with this number. */
    readonly to: string;
  };
  /** What the fingers are chosen by. Default usage. */
  readonly by?: Criterion;
  /** Kinds of cues to print; an empty list prints none. Default depth and crossing. */
  readonly layers?: readonly Layer[];
  /**
   * How near a reader of the cues stays to the plan: within 5 mm (every), 20 mm (essential) or 26 mm (demanding) at eighth
   * notes at 120 quarter notes a minute and slower, up to twice that at speed. Default essential.
   */
  readonly density?: Density;
  /** Language of the cues, the legend and the caution. Default en. */
  readonly language?: Language;
  /** Wording of single cues that replaces the language's own, by cue key. */
  readonly wording?: Readonly<Record<string, string>>;
  /** Print a legend of the cues under the last system. Default false. */
  readonly legend?: boolean;
  /** all: on every note; sparse: where the plain five-finger rule would read another finger. Default all. */
  readonly digits?: 'all' | 'sparse' | 'none';
  /**
   * Digits in print. keep: constraints; ignore: left but not used; replace: set aside, recoverably, for ours, or with the
   * digits `none` for none. Default keep.
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
  /**
   * Report for every key the next best finger, and what it would cost: another pass of the search, about a quarter of the
   * time. Default false.
   */
  readonly nextBest?: boolean;
  /**
   * Keep the slices in the report: a quarter of the memory that a long score takes. Default true; without them
   * `LineReport.slices` is empty, and all the rest of the report is the same.
   */
  readonly slices?: boolean;
  /** Turn warnings into refusals. Default false. */
  readonly strict?: boolean;
  /** Limits that differ from the defaults. */
  readonly limits?: Partial<Limits>;
}

/** A score: MusicXML text, or the bytes of a MusicXML or .mxl file. */
export type Input = string | Uint8Array | ArrayBuffer;

/**
 * The form in which a score comes back: text for text; bytes for bytes, in the same encoding and the same kind of archive.
 * Bytes are a plain `Uint8Array`, whatever class or buffer the input was.
 */
export type Output<T extends Input> = T extends string ? string : Uint8Array<ArrayBuffer>;

/** What `annotate` gives. */
export interface Annotated<T extends Input> {
  /** The marked score. */
  readonly output: Output<T>;
  /** What was found and done. */
  readonly report: Report;
}

/** What `clear` takes. */
export type ClearOptions = Pick<AnnotateOptions, 'file' | 'limits'>;

/** What `clear` gives. */
export interface Cleared<T extends Input> {
  /** The score without our marks. */
  readonly output: Output<T>;
  /** Marks that were changed since and therefore left, and digits that cannot be put back. */
  readonly warnings: readonly Warning[];
}

/** What `readLines` and `planDigits` take: the options of `annotate` that say what is read and for which hands. */
export type LineOptions = Pick<AnnotateOptions, 'file' | 'parts' | 'staff' | 'span' | 'limits'>;
