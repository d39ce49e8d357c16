import type { Finger, Hand } from '../score/model.js';
import type { AnnotateOptions, Input } from './options.js';

/** How much printed digits may cost before they are spoken of, in mm of movement. */
export interface Thresholds {
  /** What a change must save for each digit that it changes. Default 6. */
  readonly digit: number;
  /** What it must save to be mentioned. Default 6. */
  readonly remark: number;
  /** What it must save to be worth a look. Default 40. */
  readonly look: number;
  /** What it must save to be worth making. Default 90. */
  readonly change: number;
}

/** Digits to be tried in place of those in print. */
export interface Trial {
  /** Printed number of the measure. */
  readonly measure: string;
  /** Beat of the first note in it, counted as `SliceReport.beat`, to a hundredth. Default: the first note of the hand. */
  readonly beat?: number;
  /** The hand that plays. */
  readonly hand: Hand;
  /** Id of the part. Default: the first one that has the hand and the measure. */
  readonly part?: string;
  /** By onset: a digit for every key that is struck, from the lowest up; null leaves the note as it is. */
  readonly digits: readonly (readonly (Finger | null)[])[];
}

/** What `review` takes besides what is read and for which hands. */
export interface ReviewOptions
  extends Pick<
    AnnotateOptions,
    'file' | 'parts' | 'staff' | 'span' | 'limits' | 'hands' | 'measures' | 'language'
  > {
  /** mm that a change must save, by level and for each digit. Default: `THRESHOLDS`. */
  readonly thresholds?: Partial<Thresholds>;
  /** Whole fingerings to list for every passage with a finding, the printed one included, 0 ... 9. Default 0. */
  readonly alternatives?: number;
  /** Other digits, each compared with those in print. */
  readonly tries?: readonly Trial[];
  /** A second score of the same notes, whose digits are compared with those of the first. */
  readonly against?: Input;
}

/** What `markReview` takes besides the score and its review. */
export interface MarkReviewOptions extends Pick<AnnotateOptions, 'file' | 'limits'> {
  /** Findings as numbers, or in words. Default numbers. */
  readonly form?: 'numbers' | 'words';
}
