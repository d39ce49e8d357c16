import {
  atLeast,
  type Check,
  callback,
  count,
  fields,
  flag,
  kindOf,
  listOf,
  mapOf,
  oneOf,
  orNothing,
  positive,
  refuse,
  shaped,
  text,
} from './check.js';
import { DEFAULT_LIMITS, HIGHEST_LIMITS, MAX_STAVES } from './limits.js';
import { CRITERIA, DENSITIES, LANGUAGE_CODES, LAYERS, type Limits } from './options.js';

/** Second choices that can be printed for one note at most. */
const MOST_ALTERNATIVES = 9;

const LIMITS = fields(
  Object.fromEntries(
    (Object.keys(DEFAULT_LIMITS) as (keyof Limits)[]).map((name) => [name, positive(HIGHEST_LIMITS[name])]),
  ),
);

function byHand(check: Check): Check {
  return fields({ right: check, left: check });
}

/** `handModel` decides what a span may be. */
const span: Check = (value, name) => {
  if (typeof value === 'object') byHand(span)(value, name);
  else if (typeof value !== 'number') text(value, name);
};

const SOURCE = { file: text, limits: LIMITS };
const READING = {
  ...SOURCE,
  parts: listOf(text),
  staff: byHand(listOf(count(1, MAX_STAVES))),
  span,
};
export const MARKING = {
  ...READING,
  hands: oneOf(['both', 'right', 'left']),
  measures: fields({ from: text, to: text }, ['from', 'to']),
  by: oneOf(CRITERIA),
  layers: listOf(oneOf(LAYERS)),
  density: oneOf(DENSITIES),
  language: oneOf(LANGUAGE_CODES),
  wording: mapOf(text),
  legend: flag,
  digits: oneOf(['all', 'sparse', 'none']),
  existing: oneOf(['keep', 'ignore', 'replace']),
  shareHands: flag,
  alternatives: count(0, MOST_ALTERNATIVES),
  nextBest: flag,
  slices: flag,
  strict: flag,
};

const DIGITS = 5;
const REVIEWING = {
  ...READING,
  hands: MARKING.hands,
  measures: MARKING.measures,
  language: MARKING.language,
  thresholds: fields({ digit: atLeast(0), remark: atLeast(0), look: atLeast(0), change: atLeast(0) }),
  alternatives: count(0, MOST_ALTERNATIVES),
  tries: listOf(
    fields(
      {
        measure: text,
        beat: atLeast(0),
        hand: oneOf(['right', 'left']),
        part: text,
        digits: listOf(listOf(orNothing(count(1, DIGITS)))),
      },
      ['measure', 'hand', 'digits'],
    ),
  ),
  against: (value: unknown, name: string) => void inputOf(value, name),
};

const FINGERING = {
  by: oneOf(CRITERIA),
  keepDigits: flag,
  flow: shaped({ joins: 'Array', cuts: 'Set' }, "the `flow` of a line's context"),
  ornaments: shaped({ keys: 'Map', tremolos: 'Set' }, "the `ornaments` of a line's context"),
};

/** Refuses bad options with a HandlineError OPTION that names the option and what it may be. */
type OptionCheck = (options: unknown) => void;

function options(checks: Readonly<Record<string, Check>>, required?: readonly string[]): OptionCheck {
  const check = fields(checks, required);
  return (value) => check(value, '');
}

export const checkClearing = options(SOURCE);
export const checkReading = options(READING);
export const checkMarking = options(MARKING);
export const checkReviewing = options(REVIEWING);
export const checkMarkingReview = options({ ...SOURCE, form: oneOf(['numbers', 'words']) });
export const checkFingering = options({ ...FINGERING, alternates: count(0), nextBest: flag });
export const checkAlternatives = options({ ...FINGERING, count: count(0) });

const noteDigits = listOf(fields({ offset: count(0), finger: count(1, DIGITS) }, ['offset', 'finger']));

/** Digits for single note heads. */
export function checkDigits(value: unknown): void {
  noteDigits(value, 'digits');
}

const line = shaped({ slices: 'Array' }, 'a line as `readLines` gives it');
const hand = shaped({ span: 'Number', scale: 'Number' }, 'a hand as `handModel` gives it');
const fingers = shaped({ slices: 'Array' }, 'fingers by slice, such as a fingering');

/**
 * A score as text, or as plain bytes in memory of their own: subclasses such as Node's Buffer behave otherwise, and memory
 * that is shared may change under our hands.
 */
export function inputOf(value: unknown, name = 'input'): string | Uint8Array<ArrayBuffer> {
  if (typeof value === 'string') return value;
  const kind = kindOf(value);
  if (kind === 'ArrayBuffer') return new Uint8Array(value as ArrayBuffer);
  if (kind !== 'Uint8Array')
    refuse(value, name, 'MusicXML as a string, or the bytes of a file as a Uint8Array or ArrayBuffer');
  const bytes = value as Uint8Array;
  const { buffer } = bytes;
  if (kindOf(buffer) !== 'ArrayBuffer') return new Uint8Array(bytes);
  return new Uint8Array(buffer as ArrayBuffer, bytes.byteOffset, bytes.byteLength);
}

/** What one hand plays, and the hand. */
export function checkLine(ofLine: unknown, ofHand: unknown): void {
  line(ofLine, 'line');
  hand(ofHand, 'hand');
}

export function checkFingers(value: unknown): void {
  fingers(value, 'fingers');
}

const plan = shaped({ slices: 'Array', findings: 'Array' }, 'a plan as `planMotion` gives it');

/** What one hand plays, and how it moves. */
export function checkLineAndPlan(ofLine: unknown, ofPlan: unknown): void {
  line(ofLine, 'line');
  plan(ofPlan, 'plan');
}

const language = oneOf(LANGUAGE_CODES);

/** A language, or undefined for the default. */
export function checkLanguage(value: unknown): void {
  if (value !== undefined) language(value, 'language');
}

const wording = mapOf(text);

export function checkWording(value: unknown): void {
  wording(value, 'wording');
}

const report = shaped(
  { version: 'String', lines: 'Array', warnings: 'Array' },
  'a report as `annotate` gives it',
);
const warning = shaped({ message: 'String', place: 'Object' }, 'a warning of a report');
const reason = shaped({ direction: 'String' }, 'a reason as `planMotion` gives it');
const review = shaped(
  { findings: 'Array', passages: 'Array', mm: 'Object' },
  'a review as `review` gives it',
);
const reviewed = listOf(shaped({ title: 'String', review: 'Object' }, 'a title and a review'));
const beat = atLeast(0);
const movements = listOf(shaped({ sideways: 'Number' }, 'a movement of a review'));

/** Each passes what some function of this library has given. */
export const checkReport = (value: unknown) => report(value, 'report');
export const checkWarning = (value: unknown) => warning(value, 'warning');
export const checkReason = (value: unknown) => reason(value, 'reason');
export const checkBeat = (value: unknown) => beat(value, 'beat');
export const checkReview = (value: unknown) => review(value, 'review');
export const checkReviewed = (value: unknown) => reviewed(value, 'scores');
export const checkMovements = (value: unknown) => movements(value, 'movements');

export const checkReviewText = options({ title: text, all: flag }, ['title']);

const port = shaped({ postMessage: 'Function' }, 'a worker, or the end of a channel in one');
const worker = shaped(
  { postMessage: 'Function', terminate: 'Function' },
  'a worker whose script calls `serveAnnotate`',
);

export const checkPort = (value: unknown) => port(value, 'port');

const asyncOptions = fields(
  {
    worker,
    signal: shaped({ addEventListener: 'Function', removeEventListener: 'Function' }, 'an AbortSignal'),
    onProgress: callback,
  },
  ['worker'],
);

/** Where `annotateAsync` works. */
export const checkAsync = (value: unknown) => asyncOptions(value ?? {}, 'asyncOptions');
