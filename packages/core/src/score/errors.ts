/** Where in the input something was found. Absent fields are not known. Lines and columns count from 1. */
export interface Place {
  readonly file?: string;
  readonly part?: string;
  readonly measure?: string;
  readonly line?: number;
  readonly column?: number;
}

/** Stable codes of refusals. */
export type ErrorCode =
  | 'EMPTY'
  | 'NOT_XML'
  | 'NOT_MUSICXML'
  | 'ENCODING'
  | 'ARCHIVE'
  | 'UNSAFE'
  | 'LIMIT'
  | 'OPTION'
  | 'NUMBER'
  | 'WARNING_AS_ERROR';

/** Stable codes of warnings. */
export type WarningCode =
  | 'NO_PIANO'
  | 'OUT_OF_RANGE'
  | 'IMPERFECT'
  | 'UNPLAYABLE'
  | 'DIGIT_CONFLICT'
  | 'DIGIT_IGNORED'
  | 'HAND_MOVED'
  | 'NOT_OURS'
  | 'DIGIT_LOST'
  | 'REPACKED'
  | 'EMPTY_SELECTION';

export interface Warning {
  readonly code: WarningCode;
  readonly message: string;
  readonly place: Place;
}

/** `score.musicxml: part P1, measure 12, line 340: message` */
export function describe(message: string, place: Place): string {
  const where = [
    place.part === undefined ? '' : `part ${place.part}`,
    place.measure === undefined ? '' : `measure ${place.measure}`,
    place.line === undefined ? '' : `line ${place.line}`,
    place.column === undefined ? '' : `column ${place.column}`,
  ].filter((text) => text !== '');
  const head = [place.file ?? '', where.join(', ')].filter((text) => text !== '');
  return [...head, message].join(': ');
}

/** Further details of an error. */
export interface ErrorDetails extends ErrorOptions {
  readonly warning?: Warning;
}

/** The one class of refusals: bad input or bad options. Its message is a single line for people. */
export class HandlineError extends Error {
  readonly code: ErrorCode;
  readonly place: Place;
  /** With `WARNING_AS_ERROR`: the warning that was refused, which has a code of its own. */
  declare readonly warning?: Warning;

  constructor(code: ErrorCode, message: string, place: Place = {}, details: ErrorDetails = {}) {
    super(describe(message, place), details);
    this.name = 'HandlineError';
    this.code = code;
    this.place = place;
    if (details.warning) this.warning = details.warning;
  }
}
