import type { AnnotateOptions, DrillOptions } from '@handline/core';
import type { Argv, Options } from 'yargs';
import { CONFIG_FILE } from './config-file.js';
import { defined } from './defined.js';
import { limitsOf } from './limits.js';
import { type Arguments, flag, text } from './output-options.js';
import {
  LANGUAGES,
  LAYERS,
  parseCount,
  parseLayers,
  parseList,
  parseMeasures,
  parseSpan,
  parseStaff,
  readWording,
} from './values.js';

const SETTINGS =
  'Settings (the command line goes before the student, the student before the rest of the file):';
const WHAT = 'What is marked:';
const DIGITS = 'Fingering digits:';
const CUES = 'Motion cues:';

/** Help of options that `review` has as well, in a group of its own. */
export const STAFF_HELP =
  'Staff of each hand, several as right=1+2,left=3, one staff as right [right=1,left=2]';
export const SPAN_HELP =
  'Span from thumb to little finger: mm, 21cm, an interval such as 9th or octave, small, medium or large; right=..,left=.. [medium]';

const value = (group: string, describe: string) =>
  ({ group, type: 'string', requiresArg: true, describe }) as const;

/** In the order of the help text. */
const MARK_OPTIONS: Readonly<Record<string, Options>> = {
  for: value(SETTINGS, 'Use the settings that the file has for this student'),
  config: value(SETTINGS, `File of settings [${CONFIG_FILE} here or in a folder above]`),
  hands: {
    ...value(WHAT, 'Hands to mark [both]'),
    choices: ['both', 'right', 'left'] as const,
  },
  part: value(WHAT, 'Ids of the parts to mark, such as P1 or P1,P2 [every piano part]'),
  staff: value(WHAT, STAFF_HELP),
  measures: value(WHAT, 'Mark only these printed measures, such as 5-12; all are analysed [all]'),
  span: value(WHAT, SPAN_HELP),
  digits: {
    ...value(DIGITS, 'Digits on all notes, only where a reader needs one, or nowhere [all]'),
    choices: ['all', 'sparse', 'none'] as const,
  },
  existing: {
    ...value(
      DIGITS,
      'Digits already in the file: keep them, ignore them, or replace them (with --digits none, by nothing) [keep]',
    ),
    choices: ['keep', 'ignore', 'replace'] as const,
  },
  by: {
    ...value(
      DIGITS,
      'Choose fingers by movement and what editors usually print, or by movement alone [usage]',
    ),
    choices: ['usage', 'movement'] as const,
  },
  alternatives: value(DIGITS, 'Most second choices to print for a note, if they cost little more [0]'),
  'share-hands': {
    group: DIGITS,
    type: 'boolean',
    describe: 'Let the other hand take what one cannot reach, with its digits and l.h. or r.h. in print',
  },
  layers: value(
    CUES,
    `Cues to write, from ${LAYERS.join(',')}, or all; none for digits alone [depth,crossing]`,
  ),
  density: {
    ...value(CUES, 'How near a reader of the cues stays to the plan: within 5, 20 or 26 mm [essential]'),
    choices: ['every', 'essential', 'demanding'] as const,
  },
  language: {
    ...value(CUES, 'Language of the cues, the summary and the warnings [en]'),
    choices: LANGUAGES,
  },
  wording: value(CUES, 'JSON file with your own words for single cues'),
  legend: {
    group: CUES,
    type: 'boolean',
    describe: 'Print a legend of the cues under the last system',
  },
  strict: {
    group: 'What is reported:',
    type: 'boolean',
    describe: 'Refuse a file where there would be a warning',
  },
};

/** What a sheet is marked with: it has no parts, digits or measures of somebody else's. */
const SHEET_MARKING = [
  'hands',
  'span',
  'digits',
  'by',
  'alternatives',
  'layers',
  'density',
  'language',
  'wording',
  'legend',
] as const;
/** With what is not the marking's own: whose settings. */
const SHEET_OPTIONS: readonly string[] = ['for', 'config', ...SHEET_MARKING];

export function addMarkOptions(parser: Argv): Argv {
  return parser.options(MARK_OPTIONS);
}

export function addSheetMarkingOptions(parser: Argv): Argv {
  return addSomeMarkOptions(parser, SHEET_OPTIONS);
}

export function addSomeMarkOptions(parser: Argv, names: readonly string[]): Argv {
  return parser.options(
    Object.fromEntries(Object.entries(MARK_OPTIONS).filter(([name]) => names.includes(name))),
  );
}

/** What a sheet takes of the options of `mark`; a file of settings may hold more, for scores. */
export function sheetMarking(args: Arguments): DrillOptions {
  const marking = markOptions(args);
  return Object.fromEntries(
    SHEET_MARKING.flatMap((name) => (marking[name] === undefined ? [] : [[name, marking[name]]])),
  );
}

/** The options of `annotate` as the command line gives them; what is left out is core's default. */
export function markOptions(args: Arguments): AnnotateOptions {
  const given = <T>(name: string, parse: (value: string) => T): T | undefined => {
    const value = text(args, name);
    return value === undefined ? undefined : parse(value);
  };
  const as = <T extends string>(value: string) => value as T;
  return defined({
    hands: given('hands', as<NonNullable<AnnotateOptions['hands']>>),
    parts: given('part', (value) => parseList('part', value)),
    staff: given('staff', parseStaff),
    span: given('span', parseSpan),
    measures: given('measures', parseMeasures),
    layers: given('layers', parseLayers),
    density: given('density', as<NonNullable<AnnotateOptions['density']>>),
    language: given('language', as<NonNullable<AnnotateOptions['language']>>),
    wording: given('wording', readWording),
    legend: flag(args, 'legend') ? true : undefined,
    digits: given('digits', as<NonNullable<AnnotateOptions['digits']>>),
    existing: given('existing', as<NonNullable<AnnotateOptions['existing']>>),
    by: given('by', as<NonNullable<AnnotateOptions['by']>>),
    alternatives: given('alternatives', (value) => parseCount('alternatives', value, 0)),
    shareHands: flag(args, 'share-hands') ? true : undefined,
    strict: flag(args, 'strict') ? true : undefined,
    limits: limitsOf(args),
  });
}
