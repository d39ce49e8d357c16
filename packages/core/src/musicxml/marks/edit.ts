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
  readonly placement: 'above' | 'below';
}

/** A short text before the slice of one note. */
export interface CueMark {
  readonly part: number;
  readonly note: number;
  /** One or more lines, from the top down. */
  readonly text: string;
  readonly placement: 'above' | 'below';
  /** A note of the slice up to which dashes go on behind the text. */
  readonly dashesTo?: number;
  /** Whether it may stand in a row with its neighbours, at one height. */
  readonly inRows?: boolean;
}

export interface Marks {
  readonly digits: readonly DigitMark[];
  /** Notes that lose the user's digits and get none, recoverably. */
  readonly bared?: readonly Pick<DigitMark, 'part' | 'note'>[];
  readonly cues: readonly CueMark[];
  /** Whether there are cues of more layers than the usual ones. */
  readonly isCrowded?: boolean;
  /** Remove the user's own digits from the notes in `digits`, recoverably. */
  readonly replaceDigits: boolean;
  /** Under the last system, one or more lines. */
  readonly legend?: string;
}
