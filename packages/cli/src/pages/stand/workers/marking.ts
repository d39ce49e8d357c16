import { type AnnotateOptions, annotate, type NoteDigit, serveAnnotate, setDigits } from '@handline/core';
import { type End, serve } from './calls.js';
import { practise } from './practice.js';
import { sampleScore } from './sample.js';

/** Measures of the samples that are marked before there is a score: a few first, so that a score need not wait long. */
const SAMPLES = [2, 4, 8, 8];

/** The worker that marks: `annotate`, and the user's digits written into the score. It can be ended at any time. */
const ANSWERS = {
  /** The score with the user's digits as its own. */
  give: ({ bytes, digits, file }: Given) => setDigits(bytes, digits, { file }).output,
  /** Marks as after a change, for practice. */
  rehearse: ({ options, ...given }: Rehearsal) => {
    annotate(ANSWERS.give(given), options);
  },
};

interface Given {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly digits: readonly NoteDigit[];
  readonly file: string;
}

interface Rehearsal extends Given {
  readonly options: AnnotateOptions;
}

export type Marking = typeof ANSWERS;

const own = globalThis as unknown as End;
serve(own, ANSWERS);
serveAnnotate(own);
practise(
  own,
  SAMPLES.map((measures) => () => {
    const bytes = sampleScore(measures);
    const [first] = annotate(bytes).report.lines[0]!.slices;
    const digits = [{ offset: first!.notes[0]!.offset, finger: 3 } as const];
    ANSWERS.rehearse({ bytes, digits, file: '', options: {} });
  }),
);
