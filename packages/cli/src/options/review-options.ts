import { LEVELS, type Level, type ReviewOptions, type Thresholds, type Trial } from '@handline/core';
import type { Argv } from 'yargs';
import { usageError } from '../exit.js';
import { type Arguments, chosen, defined, parsed, text, valued } from './arguments.js';
import { configured } from './config.js';
import { limitsOf } from './limits.js';
import { addSomeMarkOptions, SPAN_HELP, STAFF_HELP } from './mark-options.js';
import { LANGUAGES, parseCount, parseList, parseMeasures, parseSpan, parseStaff } from './values.js';

const WHAT = 'What is reviewed:';
const OTHERS = 'Other fingerings:';
const REPORT = 'What is reported:';
const OUTPUT = 'The score with the findings in it:';

type Finger = 1 | 2 | 3 | 4 | 5;
type Hand = Trial['hand'];

/** Levels as they are typed. */
const LEVEL_NAMES: Readonly<Record<string, Level>> = {
  change: 'worth changing',
  look: 'worth a look',
  remark: 'remark',
};

export function addReviewOptions(parser: Argv): Argv {
  return addSomeMarkOptions(parser, ['for', 'config'])
    .option('hands', {
      ...valued(WHAT, 'Hands to review [both]'),
      choices: ['both', 'right', 'left'] as const,
    })
    .option('part', valued(WHAT, 'Ids of the parts to review, such as P1 or P1,P2 [every piano part]'))
    .option('staff', valued(WHAT, STAFF_HELP))
    .option(
      'measures',
      valued(WHAT, 'Review only the passages in these printed measures, such as 5-12 [all]'),
    )
    .option('span', valued(WHAT, SPAN_HELP))
    .option('try', {
      ...valued(
        OTHERS,
        'Compare other digits: "m12 right 2 3 1 2 3" (chords as 1-3-5, - keeps a note); repeatable',
      ),
    })
    .option('against', valued(OTHERS, 'Compare with the digits of a second score of the same notes'))
    .option('alternatives', valued(OTHERS, 'Whole fingerings to list for each passage with a finding [0]'))
    .option('language', { ...valued(REPORT, 'Language of the review [en]'), choices: LANGUAGES })
    .option('thresholds', valued(REPORT, 'mm that a change must save [digit=6,remark=6,look=40,change=90]'))
    .option('all', {
      group: REPORT,
      type: 'boolean',
      describe: 'Tell of all findings, not only of a screenful',
    })
    .option('json', { group: REPORT, type: 'boolean', describe: 'Print everything as JSON' })
    .option('markdown', { group: REPORT, type: 'boolean', describe: 'Print everything as Markdown' })
    .option(
      'report',
      valued(REPORT, 'Write the review of every score to this file, a line of JSON each, as it is done'),
    )
    .option('quiet', { alias: 'q', group: REPORT, type: 'boolean', describe: 'Show no progress' })
    .option('jobs', valued(REPORT, 'Scores worked on at once [as many as there are cores]'))
    .option('skip-done', {
      group: REPORT,
      type: 'boolean',
      describe: 'Go on in the file of --report: pass over scores that it has as they are, reviewed alike',
    })
    .option('fail-on', {
      ...valued(REPORT, 'End with exit code 6 where there is a finding of this level or a graver one'),
      choices: ['change', 'look', 'remark'] as const,
    })
    .conflicts('json', ['markdown', 'all', 'skip-done'])
    .conflicts('skip-done', 'output')
    .option('output', {
      alias: 'o',
      ...valued(OUTPUT, 'Write the score with the findings as numbers and the easier digits in parentheses'),
    })
    .option('mark', {
      ...valued(OUTPUT, 'Findings as numbers or in words [numbers]'),
      choices: ['numbers', 'words'] as const,
    })
    .option('force', { group: OUTPUT, type: 'boolean', describe: 'Overwrite an existing result' });
}

/** Options that a review takes from the file of settings, which may hold more, for `mark`. */
const SETTINGS = ['hands', 'part', 'staff', 'span', 'language'];

/** The command line, completed by the file of settings. @throws CliError usage */
export async function reviewArguments(typed: Arguments): Promise<Arguments> {
  const settings = await configured(typed);
  const own = SETTINGS.filter((name) => settings[name] !== undefined);
  return { ...Object.fromEntries(own.map((name) => [name, settings[name]])), ...typed };
}

/** The options of core's `review`, but for the second score. */
export function reviewOptions(args: Arguments): Omit<ReviewOptions, 'against'> {
  return defined({
    hands: chosen<NonNullable<ReviewOptions['hands']>>(args, 'hands'),
    parts: parsed(args, 'part', (value) => parseList('part', value)),
    staff: parsed(args, 'staff', parseStaff),
    span: parsed(args, 'span', parseSpan),
    measures: parsed(args, 'measures', parseMeasures),
    language: chosen<NonNullable<ReviewOptions['language']>>(args, 'language'),
    thresholds: parsed(args, 'thresholds', parseThresholds),
    alternatives: parsed(args, 'alternatives', (value) => parseCount('alternatives', value, 0)),
    tries: triesOf(args),
    limits: limitsOf(args),
  });
}

/** The levels that `--fail-on` names; none where it is not given. */
export function failingLevels(args: Arguments): readonly Level[] {
  const level = LEVEL_NAMES[text(args, 'fail-on') ?? ''];
  return level === undefined ? [] : LEVELS.slice(0, LEVELS.indexOf(level) + 1);
}

function parseThresholds(given: string): Partial<Thresholds> {
  const found: Partial<Record<keyof Thresholds, number>> = {};
  for (const item of parseList('thresholds', given)) {
    const [, name, mm] = /^(digit|remark|look|change)=(\d{1,6}(?:\.\d+)?)$/.exec(item) ?? [];
    if (name === undefined)
      throw usageError(
        `--thresholds ${given}: "${item}" is not understood; write digit=6,remark=6,look=40,change=90`,
      );
    found[name as keyof Thresholds] = Number(mm);
  }
  return found;
}

function triesOf(args: Arguments): readonly Trial[] | undefined {
  const given = args.try;
  if (given === undefined) return undefined;
  return (Array.isArray(given) ? given : [given]).map((one) => parseTrial(String(one)));
}

const TRIAL = /^(?:(\S+)\s+)?m(\S+?)(?:\s+beat\s+(\d+(?:\.\d+)?))?\s+(right|left)\s+(.+)$/;

/** `m12 right 2 3 1 2 3`, `P1 m12 beat 2.5 left 5-3-1 - 2`: part, measure, beat, hand, a digit or chord for each onset. */
export function parseTrial(given: string): Trial {
  const [, part, measure, beat, hand, digits] = TRIAL.exec(given.trim()) ?? [];
  if (measure === undefined || hand === undefined || digits === undefined)
    throw usageError(
      `--try "${given}" is not understood; write "m12 right 2 3 1 2 3" or "m12 beat 2 left 5-3-1 2 -"`,
    );
  return {
    measure,
    hand: hand as Hand,
    ...(part === undefined ? {} : { part }),
    ...(beat === undefined ? {} : { beat: Number(beat) }),
    digits: digits.split(/\s+/).map((onset) => {
      if (!/^(?:[1-5](?:-[1-5])*|-)$/.test(onset))
        throw usageError(
          `--try "${given}": "${onset}" is not a digit from 1 to 5, a chord such as 1-3-5, or -`,
        );
      if (onset === '-') return [];
      const fingers = onset.split('-').map((digit) => Number(digit) as Finger);
      return fingers;
    }),
  };
}
