import type { Hand } from '../score/model.js';

/** What is wrong with a file that is read all the same. */
export type ReadingFault =
  | 'attributes'
  | 'no-forward'
  | 'no-backup'
  | 'backup-too-far'
  | 'order'
  | 'lone-chord-member'
  | 'staff-beyond'
  | 'unreadable-pitch'
  | 'microtone'
  | 'out-of-range'
  | 'empty-note'
  | 'empty-rest'
  | 'no-duration'
  | 'no-divisions'
  | 'rounded'
  | 'repeated-id';

/** The warnings of `annotate` and `review` in one language; what stands in braces is filled in. */
export interface MessageWords {
  /** Where something was found: `{name}` as printed, or `{number}`. */
  readonly place: Readonly<Record<'part' | 'measure' | 'line' | 'column', string>>;
  /** The hands as the subject of a sentence, and what both play. */
  readonly hands: Readonly<Record<Hand, string>>;
  readonly piano: string;
  readonly and: string;
  /** Between two ways out. */
  readonly or: string;
  /** The same before `omit`: in Spanish the word changes before an o. */
  readonly orOmit: string;
  /** Behind a list: `{count}` more. */
  readonly more: string;
  /** Behind a message that holds in `{count}` places. */
  readonly places: string;
  /** `{staves}` of the part. */
  readonly reading: Readonly<Record<ReadingFault, string>>;
  /** `{staves}` of the part, `{hand}` without notes. */
  readonly emptyStaff: string;
  readonly noParts: string;
  /** `{ids}` of the parts. */
  readonly noPiano: string;
  /** `{who}` has no notes; the same in measures `{from}` to `{to}`. */
  readonly nothingThere: string;
  readonly nothingInMeasures: string;
  /** `{count}` notes. */
  readonly handMoved: string;
  readonly handMovedOne: string;
  readonly misfit: string;
  /** `{beat}`, `{hand}`, and `{ways}` out. */
  readonly unreachable: string;
  /** `{beat}`, `{hand}`, and the `{digits}`: each a `{finger}` on a `{key}`. */
  readonly conflict: string;
  readonly digit: string;
  /** `{hand}` is the other one, `{keys}` what it takes or what is left out. */
  readonly ways: Readonly<Record<'other-hand' | 'roll' | 'omit', string>>;
  /** A `{key}` whose name another key of the chord has too, an octave or more below or above it. */
  readonly upper: string;
  readonly lower: string;
  /** `{hand}` takes `{keys}` of `{other}`. */
  readonly takes: string;
}
