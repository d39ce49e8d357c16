import type { Finger, Span } from '../../score/model.js';

/** One change to the original text: `[start, end)` becomes `text`; an insertion has `start === end`. */
export interface Edit extends Span {
  readonly text: string;
}

/** A digit to print on one note head. */
export interface DigitMark {
  readonly part: number;
  readonly note: number;
  readonly finger: Finger;
  /** A finger that silently takes the key over while it is held, printed after the first. */
  readonly substitution?: Finger;
  /** Second choices, the best first, printed as `alternate="yes"`. */
  readonly alternates?: readonly Finger[];
  readonly placement: 'above' | 'below';
}

/** A short text in a `<direction>` before the slice of one note. */
export interface CueMark {
  readonly part: number;
  readonly note: number;
  readonly text: string;
  readonly placement: 'above' | 'below';
}

export interface Marks {
  readonly digits: readonly DigitMark[];
  readonly cues: readonly CueMark[];
  /** Remove the user's own digits from the notes in `digits`, recoverably. */
  readonly replaceDigits: boolean;
  /** Text block at the head of the score. */
  readonly legend?: string;
}
