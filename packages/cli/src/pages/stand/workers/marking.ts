import { type NoteDigit, serveAnnotate, setDigits } from '@handline/core';
import { type End, serve } from './calls.js';

/** The worker that marks: `annotate`, and the user's digits written into the score. It can be ended at any time. */
const ANSWERS = {
  /** The score with the user's digits as its own. */
  give: ({ bytes, digits, file }: Given) => setDigits(bytes, digits, { file }).output,
};

interface Given {
  readonly bytes: Uint8Array;
  readonly digits: readonly NoteDigit[];
  readonly file: string;
}

export type Marking = typeof ANSWERS;

const own = globalThis as unknown as End;
serve(own, ANSWERS);
serveAnnotate(own);
