import type { LineReport } from '@handline/core';

/** One of something, and `{count}` of it. */
export type Counted = readonly [one: string, several: string];

/** The summary of a run in one language; what stands in braces is filled in. */
export interface SummaryWords {
  /** `{input}`, `{output}`, `{backup}`. */
  readonly unchanged: string;
  readonly done: string;
  readonly differs: string;
  readonly missing: string;
  readonly same: string;
  /** The same where the score itself is compared. */
  readonly differsFromIt: string;
  readonly sameAsIt: string;
  readonly standardOutput: string;
  readonly backup: string;
  readonly nothingMarked: string;
  readonly hands: Readonly<Record<LineReport['hand'], string>>;
  readonly headings: readonly [
    notes: string,
    cues: string,
    crossings: string,
    depth: string,
    hardest: string,
  ];
  /** `{digits}` of `{notes}`; of them `{count}` that the file had. */
  readonly fingered: string;
  readonly kept: string;
  readonly doubts: Counted;
  readonly shared: Counted;
  /** `{text}` at `{places}`, with `{advice}` where to read more. */
  readonly placed: string;
  readonly tellsWhy: string;
  readonly tellsHow: string;
  readonly measure: string;
  /** `{count}` rows that are not shown. */
  readonly more: string;
  /** `{fingered}` of them, as `fingered` tells it. */
  readonly fingeredNotes: Counted;
  readonly cues: Counted;
  readonly crossings: Counted;
  /** One score among several: `{place}` of the result, `{notes}`, `{cues}`. */
  readonly score: string;
  /** All of them: `{results}` of so many, `{notes}`, `{cues}`, `{crossings}`, `{doubts}`. */
  readonly scores: Counted;
  /** Of `{files}`. */
  readonly doneAlready: Counted;
  readonly differ: Counted;
  readonly lacking: Counted;
  /** Files that were not done. */
  readonly notDone: string;
  readonly refused: Counted;
  readonly unwritten: Counted;
  readonly defects: Counted;
  /** Headings of the warnings of one file and of several, `{kinds}` in so many scores, with `{advice}` where to find more. */
  readonly warnings: string;
  readonly warningsIn: Counted;
  readonly allWithJson: string;
  readonly allWithReport: string;
  /** Of `clear`: nothing was found; marks are removed from `{cleared}` of so many scores, or would be. */
  readonly noMarks: string;
  readonly cleared: Counted;
  readonly wouldClear: Counted;
  /** Sign of decimals. */
  readonly point: '.' | ',';
}
