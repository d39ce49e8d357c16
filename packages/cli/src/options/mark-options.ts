import type { AnnotateOptions, DrillOptions } from '@handline/core';
import type { Argv, Options } from 'yargs';
import { type Arguments, chosen, defined, flag, parsed, valued } from './arguments.js';
import { CONFIG_FILE } from './config-file.js';
import { limitsOf } from './limits.js';
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

/** In the order of the help text. */
const MARK_OPTIONS: Readonly<Record<string, Options>> = {
  for: valued(SETTINGS, 'Use the settings that the file has for this student'),
  config: valued(SETTINGS, `File of settings [${CONFIG_FILE} here or in a folder above]`),
  hands: {
    ...valued(WHAT, 'Hands to mark [both]'),
    choices: ['both', 'right', 'left'] as const,
  },
  part: valued(WHAT, 'Ids of the parts to mark, such as P1 or P1,P2 [every piano part]'),
  staff: valued(WHAT, STAFF_HELP),
  measures: valued(WHAT, 'Mark only these printed measures, such as 5-12; all are analysed [all]'),
  span: valued(WHAT, SPAN_HELP),
  digits: {
    ...valued(DIGITS, 'Digits on all notes, only where a reader needs one, or nowhere [all]'),
    choices: ['all', 'sparse', 'none'] as const,
  },
  existing: {
    ...valued(
      DIGITS,
      'Digits already in the file: keep them, ignore them, or replace them (with --digits none, by nothing) [keep]',
    ),
    choices: ['keep', 'ignore', 'replace'] as const,
  },
  by: {
    ...valued(
      DIGITS,
      'Choose fingers by movement and what editors usually print, or by movement alone [usage]',
    ),
    choices: ['usage', 'movement'] as const,
  },
  alternatives: valued(DIGITS, 'Most second choices to print for a note, if they cost little more [0]'),
  'share-hands': {
    group: DIGITS,
    type: 'boolean',
    describe: 'Let the other hand take what one cannot reach, with its digits and l.h. or r.h. in print',
  },
  layers: valued(
    CUES,
    `Cues to write, from ${LAYERS.join(',')}, or all; none for digits alone [depth,crossing]`,
  ),
  density: {
    ...valued(CUES, 'How near a reader of the cues stays to the plan: within 5, 20 or 26 mm [essential]'),
    choices: ['every', 'essential', 'demanding'] as const,
  },
  language: {
    ...valued(CUES, 'Language of the cues, the summary and the warnings [en]'),
    choices: LANGUAGES,
  },
  wording: valued(CUES, 'JSON file with your own words for single cues'),
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
  return defined({
    hands: chosen<NonNullable<AnnotateOptions['hands']>>(args, 'hands'),
    parts: parsed(args, 'part', (value) => parseList('part', value)),
    staff: parsed(args, 'staff', parseStaff),
    span: parsed(args, 'span', parseSpan),
    measures: parsed(args, 'measures', parseMeasures),
    layers: parsed(args, 'layers', parseLayers),
    density: chosen<NonNullable<AnnotateOptions['density']>>(args, 'density'),
    language: chosen<NonNullable<AnnotateOptions['language']>>(args, 'language'),
    wording: parsed(args, 'wording', readWording),
    legend: flag(args, 'legend') ? true : undefined,
    digits: chosen<NonNullable<AnnotateOptions['digits']>>(args, 'digits'),
    existing: chosen<NonNullable<AnnotateOptions['existing']>>(args, 'existing'),
    by: chosen<NonNullable<AnnotateOptions['by']>>(args, 'by'),
    alternatives: parsed(args, 'alternatives', (value) => parseCount('alternatives', value, 0)),
    shareHands: flag(args, 'share-hands') ? true : undefined,
    strict: flag(args, 'strict') ? true : undefined,
    limits: limitsOf(args),
  });
}
