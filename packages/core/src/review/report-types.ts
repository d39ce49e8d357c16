import type { Thresholds } from '../options/review-options.js';
import type { Warning } from '../score/errors.js';
import type { Finger, Hand, Span } from '../score/model.js';
import type { CauseName } from './causes/cause.js';
import type { Level } from './findings/thresholds.js';
import type { Movement } from './measure/kinds.js';

/** Where something stands: the printed number of the measure, and the beat in it, as `SliceReport.beat`. */
export interface At {
  /** Printed number of the measure. */
  readonly measure: string;
  /** From 1, in quarter notes; a pickup is counted as the end of a whole measure. */
  readonly beat: number;
}

/** A note head of the source. */
export interface NoteAt extends At {
  /** MIDI number. */
  readonly key: number;
  /** As the score writes it, in the language asked for, without octave. */
  readonly name: string;
  /** Offsets of the `<note>` in the text of the score, in UTF-16 code units. */
  readonly note: Span;
}

/** A digit of a proposal. */
export interface Changed extends NoteAt {
  /** The finger proposed. */
  readonly finger: Finger;
  /** The digit in print; absent where the score leaves the note open and the digit was inferred. */
  readonly printed?: Finger;
  /** The finger that an open note has beside the printed digits. */
  readonly inferred?: Finger;
}

/** An easier way, confirmed by its recomputed movement with all other digits as printed. */
export interface RemedyReport {
  /** The digits that it changes or gives. */
  readonly changes: readonly Changed[];
  /** Printed digits that it changes. */
  readonly digits: number;
  /** mm of movement that it saves in all, and by kind, below 0 where it costs more of one. */
  readonly saved: number;
  /** The same by kind. */
  readonly kinds: Movement;
  /** In words. */
  readonly text: string;
}

/** What is said of one note. */
export interface ReviewFinding extends NoteAt {
  /** Counted in the order of the score, as in its footnotes. */
  readonly number: number;
  /** Id of the part. */
  readonly part: string;
  /** The hand that plays. */
  readonly hand: Hand;
  /** How grave it is. */
  readonly level: Level;
  /** Why it costs what it costs. */
  readonly cause: CauseName;
  /** The finger on the note. */
  readonly finger: Finger;
  /** mm of movement that the printed digits take more than the remedy; 0 where there is none. */
  readonly mm: number;
  /** The cause in words. */
  readonly text: string;
  /** The easier way, where there is one. */
  readonly remedy?: RemedyReport;
}

/** Fingers of one onset, lowest key first. */
export interface FingeredOnset extends At {
  /** MIDI numbers. */
  readonly keys: readonly number[];
  /** By key; null where no finger takes it. */
  readonly fingers: readonly (Finger | null)[];
  /** By key: whether the digit is in print; the others are inferred. */
  readonly printed: readonly boolean[];
}

/** One whole way to finger a passage. */
export interface WholeFingering {
  /** The printed one, one of least movement, what is usual in print, or that of the whole scale. */
  readonly kind: 'printed' | 'movement' | 'usual' | 'scale';
  /** By onset, by key from the lowest up. */
  readonly fingers: readonly (readonly (Finger | null)[])[];
  /** mm by kind. */
  readonly movement: Movement;
  /** mm in all, and more than the printed one, below 0 where it is less. */
  readonly mm: number;
  /** mm more than the printed one. */
  readonly more: number;
  /** Where it differs from the printed one. */
  readonly differs: readonly Changed[];
  /** The digits in a row. */
  readonly text: string;
}

/** A phrase or a few measures of one hand. */
export interface PassageReport {
  /** Id of the part. */
  readonly part: string;
  /** The hand that plays. */
  readonly hand: Hand;
  /** Its first onset. */
  readonly from: At;
  /** Its last onset. */
  readonly to: At;
  /** Notes that the hand strikes, and those that have a digit in print. */
  readonly notes: number;
  /** Notes with a digit in print. */
  readonly digits: number;
  /** Movement of the printed digits, completed, and the least with everything else as printed; mm by kind. */
  readonly printed: Movement;
  /** The least movement. */
  readonly least: Movement;
  /** mm of all kinds together. */
  readonly mm: {
    /** As printed. */
    readonly printed: number;
    /** The least. */
    readonly least: number;
    /** What the printed digits take beyond the least. */
    readonly more: number;
  };
  /** Numbers of its findings. */
  readonly findings: readonly number[];
  /** The printed digits, completed, onset by onset. */
  readonly fingering: readonly FingeredOnset[];
  /** Where asked for: whole fingerings, the printed one first. */
  readonly alternatives?: readonly WholeFingering[];
}

/** Two fingerings of the same notes. */
export interface ComparisonReport {
  /** Id of the part. */
  readonly part: string;
  /** The hand that plays. */
  readonly hand: Hand;
  /** Its first onset. */
  readonly from: At;
  /** Its last onset. */
  readonly to: At;
  /** Notes in it with a digit in print; 0 where the first fingering is that of least movement. */
  readonly digits: number;
  /** Movement of the first fingering, mm by kind. */
  readonly first: Movement;
  /** Movement of the second. */
  readonly second: Movement;
  /** mm that the second takes more, below 0 where it is less. */
  readonly more: number;
  /** By onset: mm of both, by kind. */
  readonly onsets: readonly (At & {
    /** Of the first fingering. */
    readonly first: Movement;
    /** Of the second. */
    readonly second: Movement;
  })[];
  /** Where the second differs. */
  readonly differs: readonly Changed[];
  /** In words. */
  readonly text: string;
}

/** What `review` finds in one score; its JSON has a schema, `schema/review-1.json`. */
export interface Review {
  /** Of the schema. */
  readonly version: 1;
  /** Code of the language of its texts. */
  readonly language: string;
  /** Those that were used, mm. */
  readonly thresholds: Thresholds;
  /** Notes, and those that have a digit in print. */
  readonly notes: number;
  /** Notes with a digit in print. */
  readonly digits: number;
  /** mm of all passages that have digits. */
  readonly mm: {
    /** As printed. */
    readonly printed: number;
    /** The least. */
    readonly least: number;
    /** What the printed digits take beyond the least. */
    readonly more: number;
  };
  /** How many findings of each level. */
  readonly levels: Readonly<Record<Level, number>>;
  /** Passages that were reviewed, hand by hand. */
  readonly passages: readonly PassageReport[];
  /** In the order of the score. */
  readonly findings: readonly ReviewFinding[];
  /** Those asked for with other digits or a second score. */
  readonly comparisons: readonly ComparisonReport[];
  /** As from `readLines`. */
  readonly warnings: readonly Warning[];
  /** That whatever feels better in the hand is the one to use. */
  readonly advice: string;
  /** The usual caution about pain and injury. */
  readonly caution: string;
}
