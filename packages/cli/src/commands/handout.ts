import type { Argv } from 'yargs';
import { type ExitCode, usageError } from '../exit.js';
import { planJobs } from '../files/jobs.js';
import { refusePageName } from '../files/kinds.js';
import { VERSION } from '../files/version.js';
import type { Streams } from '../jobs/streams.js';
import { type Arguments, flag } from '../options/arguments.js';
import { configured } from '../options/config.js';
import { addHandoutOptions, handoutOptions } from '../options/handout-options.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { addMarkOptions, markOptions } from '../options/mark-options.js';
import { inputsOf, outputChoice, reportChoice } from '../options/output-options.js';
import { CAUTION, EXIT_CODES, FORMATS } from '../output/help.js';
import { PageTally } from '../output/page-summary.js';
import { loadEngraver } from '../pages/engraver.js';
import { handoutOf } from '../pages/handout/handout.js';
import { runJobs } from './run.js';
import { SUMMARIES } from './summaries.js';

/** Options of `mark` that mean nothing on a page that has a legend and keeps the hands as they are written. */
const NOT_HERE = ['share-hands', 'legend', 'alternatives'] as const;

const ONE_SCORE = 'a handout takes one score; run it once for each';

export function buildHandout(parser: Argv): Argv {
  const built = addLimitOptions(addMarkOptions(addHandoutOptions(parser)));
  for (const name of NOT_HERE) built.hide(name);
  return built
    .usage(`handline handout IN -o handout.html\n\n${SUMMARIES.handout}. ${FORMATS}`)
    .example('handline handout waltz.mxl -o waltz.html', 'a page for the stand')
    .example('handline handout waltz.mxl -o two.html --compare', 'and an easier fingering')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline handout`. */
export async function runHandout(typed: Arguments, streams: Streams): Promise<ExitCode> {
  const inputs = inputsOf(typed);
  if (inputs.length > 1) throw usageError(ONE_SCORE);
  for (const name of NOT_HERE) {
    if (typed[name] !== undefined) throw usageError(`--${name} is for mark, not for handout`);
  }
  const args = await configured(typed);
  const { shareHands: _, legend: __, alternatives: ___, ...marking } = markOptions(args);
  if (marking.existing === 'ignore')
    throw usageError('--existing ignore is for mark; a handout keeps or replaces the digits of the score');
  if (flag(args, 'compare') && marking.existing !== undefined)
    throw usageError('--compare shows both fingerings; leave --existing out');
  const options = { ...handoutOptions(args), version: VERSION };
  const jobs = await planJobs(
    inputs,
    outputChoice(args),
    streams.stdout.isTTY === true,
    streams.stdin,
    refusePageName,
    ONE_SCORE,
  );
  const engraver = await loadEngraver();
  return runJobs(
    {
      jobs,
      choice: reportChoice(args),
      tally: new PageTally(marking.language ?? 'en'),
      mostBytes: mostBytes(marking.limits ?? {}),
      work: (bytes, file) => handoutOf(bytes, { ...marking, file }, options, engraver),
    },
    streams,
  );
}
