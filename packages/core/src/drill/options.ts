import type { AnnotateOptions } from '../options/options.js';
import type { DegreeMotive } from './motive/degrees.js';
import type { FigureSource } from './motive/figure.js';
import type { Sequence } from './motive/placed.js';
import type { FragmentChoice } from './patterns/fragments.js';
import type { Motion } from './patterns/ladder-lines.js';
import type { Distance, Double } from './patterns/scales.js';
import type { ChordKind } from './theory/chords.js';
import type { ScaleKind } from './theory/scales.js';

export const PATTERNS = [
  'scales',
  'arpeggios',
  'broken-chords',
  'cadences',
  'five-finger',
  'fragments',
] as const;
/** What can be practised in a key. */
export type DrillPattern = (typeof PATTERNS)[number];

/** What `mark` takes and a sheet takes too. */
export type SheetMarking = Pick<
  AnnotateOptions,
  | 'hands'
  | 'span'
  | 'digits'
  | 'by'
  | 'alternatives'
  | 'layers'
  | 'density'
  | 'language'
  | 'wording'
  | 'legend'
>;

/** What `drill` takes; everything is optional. */
export interface DrillOptions extends SheetMarking {
  /** Printed at the head of the sheet. Default: what it holds. */
  readonly title?: string;
  /** Keynotes such as C, F# or Bb, or the twelve of them in the order of fifths. Default C; of a passage its own, of a study all. */
  readonly keys?: 'all' | readonly string[];
  /** What is practised in every key. Default scales. */
  readonly patterns?: readonly DrillPattern[];
  /** Kinds of scales. Default major. */
  readonly kinds?: readonly ScaleKind[];
  /** Kinds of chords for arpeggios and broken chords. Default major. */
  readonly chords?: readonly ChordKind[];
  /** Arpeggios from every note of the chord, cadences in every position. Default false. */
  readonly inversions?: boolean;
  /** 1 ... 4; default 2. */
  readonly octaves?: number;
  /** Octave in which the right hand begins, 0 ... 8, that from middle C up being 4. Default: about the middle of the keyboard. */
  readonly start?: number;
  /** Default together. */
  readonly motion?: Motion;
  /** Interval between the hands that play together. Default octave. */
  readonly apart?: Distance;
  /** What one hand takes at once. Default: single notes. */
  readonly double?: Double;
  /** Lengths, starts and turning points of fragments. Default: 5 to 8 notes, every start, every turning point. */
  readonly fragments?: FragmentChoice;
  /** Only so many fragments, those whose scale fingering costs most over their own easiest, worst first. */
  readonly awkward?: number;
  /** A motive in sequence, in place of the patterns: degrees of the scale, or a passage of a score. */
  readonly motive?: DegreeMotive | FigureSource;
  /** Whether the motive moves along the scale, the default, or by semitones. */
  readonly sequence?: Sequence;
  /** How often the motive is played, 1 ... 36. Default: to its octave. */
  readonly steps?: number;
  /** A passage of a score as it stands, in other rhythms, beat by beat and in other keys, in place of the patterns. */
  readonly study?: FigureSource;
  /** Such as 4/4, the default, or 6/8; of a passage its own. */
  readonly metre?: string;
  /** Rhythms in which everything is written one after the other, each a list of note values that recurs. */
  readonly rhythms?: readonly (readonly string[])[];
  /** An accent on the first of so many notes, 2 ... 16. */
  readonly accents?: number;
  /** Beats of the metre a minute, 20 ... 300; default 80, of a passage its own. */
  readonly tempo?: number;
}
