import type { ChordKind } from '../theory/chords.js';
import type { ScaleKind } from '../theory/scales.js';

/** Texts of a sheet in one language; braces stand for what is filled in. */
export interface SheetWords {
  /** `{note}` is the keynote's name, `{lower}` the same without a capital letter. */
  readonly scales: Readonly<Record<ScaleKind, string>>;
  readonly chords: Readonly<Record<ChordKind, string>>;
  readonly titles: Readonly<
    Record<
      | 'scales'
      | 'arpeggios'
      | 'broken-chords'
      | 'cadences'
      | 'five-finger'
      | 'fragments'
      | 'motive'
      | 'awkward'
      | 'study',
      string
    >
  >;
  /** `{key}` is a heading as above. */
  readonly patterns: Readonly<
    Record<'arpeggios' | 'broken-chords' | 'cadences' | 'five-finger' | 'fragments' | 'motive', string>
  >;
  /** Headings of a study. */
  readonly study: Readonly<Record<'figure' | 'rhythms' | 'fragments', string>>;
  readonly hands: Readonly<Record<'right' | 'left', string>>;
  /** `{mm}` of movement. */
  readonly easiest: string;
  readonly asInScale: string;
  readonly same: string;
  /** Terms of the movement that a line by step can differ in, in one or two words. */
  readonly terms: Readonly<Record<string, string>>;
  readonly otherTerm: string;
  readonly piano: string;
}
