/** Where in the input something was found. Absent fields are not known. Lines and columns count from 1. */
export interface Place {
  /** Name of the file, where one was given. */
  readonly file?: string;
  /** Id of the part. */
  readonly part?: string;
  /** Number of the measure as printed. */
  readonly measure?: string;
  /** Line of the text. */
  readonly line?: number;
  /** Column of the line, in UTF-16 code units. */
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

/** What the user should know although the score is marked. */
export interface Warning {
  /** What kind it is: the README says what each means. */
  readonly code: WarningCode;
  /** One line for people, without its place: in the language that `annotate` was given, else in English. */
  readonly message: string;
  /** Where it was found. */
  readonly place: Place;
}

/** Longest name in the file that a message quotes, and longest message, in UTF-16 units. */
const LONGEST_NAME = 60;
const LONGEST_MESSAGE = 500;

/** On one line, without what a terminal would obey, and cut where it is too long. */
function shown(text: string, most: number): string {
  const line = text.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ');
  return line.length > most ? `${line.slice(0, most)}...` : line;
}

/** What a place is told by, after the file. */
const PLACE_NAMES = ['part', 'measure', 'line', 'column'] as const;
/** One of the names by which a place is told. */
export type PlaceName = (typeof PLACE_NAMES)[number];

/**
 * `score.musicxml: part P1, measure 12, line 340: message`
 *
 * @param named what a part, a measure, a line or a column is called
 */
export function describe(
  message: string,
  place: Place = {},
  named: (name: PlaceName, value: string) => string = inEnglish,
): string {
  if (typeof message !== 'string') throw optionError('message', 'give text');
  if (typeof place !== 'object' || place === null)
    throw optionError('place', 'give a place, or leave it out');
  const where: string[] = [];
  for (const name of PLACE_NAMES) {
    const value = place[name];
    if (value !== undefined) where.push(named(name, shown(`${value}`, LONGEST_NAME)));
  }
  const head = [place.file ?? '', where.join(', ')].filter((text) => text !== '');
  return [...head, shown(message, LONGEST_MESSAGE)].join(': ');
}

function inEnglish(name: PlaceName, value: string): string {
  return `${name} ${value}`;
}

/** Which option is wrong, as data: for a form, or a command line that has names of its own. */
export interface OptionMistake {
  /** Where it stands among the options, such as `fragments.from`; the message begins with it. */
  readonly name: string;
  /** The value, or the name that no option has, if it was text. */
  readonly given?: string;
  /** All that may be given instead, where that can be listed. */
  readonly allowed?: readonly string[];
}

/** Further details of an error. */
export interface ErrorDetails extends ErrorOptions {
  /** With `OPTION`: the option that is wrong, where it is one. */
  readonly option?: OptionMistake;
  /** With `WARNING_AS_ERROR`: the warning that was refused. */
  readonly warning?: Warning;
}

/** The one class of refusals: bad input or bad options. Its message is a single line for people. */
export class HandlineError extends Error {
  /** What kind it is: the README says what each means. */
  readonly code: ErrorCode;
  /** Where it was found. */
  readonly place: Place;
  /** With `WARNING_AS_ERROR`: the warning that was refused, which has a code of its own. */
  declare readonly warning?: Warning;
  /** With `OPTION`: the option that is wrong, where it is one. */
  declare readonly option?: OptionMistake;

  constructor(code: ErrorCode, message: string, place: Place = {}, details: ErrorDetails = {}) {
    super(describe(message, place), details);
    this.name = 'HandlineError';
    this.code = code;
    this.place = place;
    if (details.warning) this.warning = details.warning;
    if (details.option) this.option = details.option;
  }
}

/** The refusal of an option, whose message names it first. */
export function optionError(
  name: string,
  message: string,
  place: Place = {},
  values: Omit<OptionMistake, 'name'> = {},
): HandlineError {
  return new HandlineError('OPTION', `${name}: ${message}`, place, { option: { name, ...values } });
}
