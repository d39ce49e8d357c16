import type { Hand } from '../../score/model.js';
import type { CauseName } from '../causes/cause.js';
import type { Level } from '../findings/thresholds.js';
import type { Kind } from '../measure/kinds.js';
import type { WholeFingering } from '../report-types.js';

/** The texts of a review in one language; what stands in braces is filled in. */
export interface ReviewWords {
  readonly levels: Readonly<Record<Level, string>>;
  readonly kinds: Readonly<Record<Kind, string>>;
  readonly hands: Readonly<Record<Hand, string>>;
  /** `{finger}` on `{key}`; `{other}` on `{otherKey}`; `{mm}`; `{measure}` of a like passage. */
  readonly causes: Readonly<Record<CauseName, string>>;
  /** The same where no other finger is to be named. */
  readonly alone: Readonly<Partial<Record<CauseName, string>>>;
  /** A stretch that this hand does not reach: as a cause. */
  readonly beyond: string;
  /** One digit: `{finger}` for `{printed}` on `{key}`. */
  readonly instead: string;
  /** Several in a row: `{fingers}` from `{key}` to `{last}`. */
  readonly row: string;
  /** `{text}` that holds `{count}` times. */
  readonly times: string;
  /** Between two clauses of a sentence. */
  readonly between: string;
  /** `{remedy}`, which saves `{mm}`; and one where both work. */
  readonly easier: string;
  readonly or: string;
  /** One that makes playable what is not. */
  readonly possible: string;
  /** What else a remedy brings. */
  readonly noLongerOut: string;
  readonly noLongerIn: string;
  /** Of findings that matter little: `{mm}` more, mostly of `{kind}`. */
  readonly bothWork: string;
  /** The same where the printed one lies beyond this hand. */
  readonly printedTakesMore: string;
  /** The same where the forearm travels `{mm}` more. */
  readonly travelsMore: string;
  /** The same of a held key that is let go of. */
  readonly pedalHolds: string;
  /** `{key}` at another place than the finding's, in the same measure or in another one. */
  readonly keyAtBeat: string;
  readonly keyInMeasure: string;
  /** A finding: `{number}`, `{where}`, `{beat}`, `{hand}`, `{key}`. */
  readonly place: string;
  /** `{digits}` of `{notes}` notes, `{passages}`, mm `{printed}` and `{least}`. */
  readonly head: string;
  /** The same where one note has a digit. */
  readonly headOfOne: string;
  readonly noDigits: string;
  /** `{count}` notes without a digit. */
  readonly inferred: string;
  readonly inferredOne: string;
  /** Heading of all digits in rows. */
  readonly allDigits: string;
  /** Chords at `{places}` of which no finger takes a key. */
  readonly outOfReach: string;
  readonly noFindings: string;
  /** `{count}` findings that are not shown. */
  readonly more: string;
  /** Title of the table, the heading of its first column, that of all kinds together, and `{from}`, `{to}` of a passage. */
  readonly table: string;
  readonly passage: string;
  readonly all: string;
  readonly measures: string;
  /** A passage within one measure. */
  readonly measure: string;
  /** Where a finding is: `{measure}`, or the measure before the first one. */
  readonly inMeasure: string;
  readonly upbeat: string;
  /** A passage from the upbeat `{to}` a measure. */
  readonly upbeatTo: string;
  /** The row of the other digits in a comparison. */
  readonly others: string;
  readonly feel: string;
  /** A comparison at `{place}`: `{first}` mm, `{second}` mm; the second takes `{mm}` more or less, mostly of `{kind}`. */
  readonly compared: string;
  /** The same where nothing is in print, and the first is that of least movement. */
  readonly comparedOpen: string;
  readonly takesMore: string;
  readonly takesLess: string;
  /** `{text}` of one of these, with the `{key}` into which most crossings lead. */
  readonly mostAt: string;
  readonly takesSame: string;
  /** Whole fingerings of a passage, and what each is. */
  readonly whole: string;
  readonly fingerings: Readonly<Record<WholeFingering['kind'], string>>;
  /** A whole fingering: `{kind}`, and its `{size}`. */
  readonly wholeHead: string;
  /** Its size against the printed one: `{mm}` in all, `{more}` more or less. */
  readonly wholeSame: string;
  readonly wholeMore: string;
  readonly wholeLess: string;
  /** Of two keys with one name: `{key}`. */
  readonly lower: string;
  readonly upper: string;
  /** Headings of the table of several scores. */
  readonly scores: string;
  readonly score: string;
  readonly digits: string;
  readonly moreMovement: string;
}
