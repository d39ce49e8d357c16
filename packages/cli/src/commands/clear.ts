import type { Language } from '@handline/core';
import type { Argv } from 'yargs';
import type { ExitCode } from '../exit.js';
import { planJobs } from '../files/jobs.js';
import type { Streams } from '../jobs/streams.js';
import { type Arguments, chosen, valued } from '../options/arguments.js';
import { configured } from '../options/config.js';
import { addLimitOptions, limitsOf, mostBytes } from '../options/limits.js';
import { addSomeMarkOptions } from '../options/mark-options.js';
import { addOutputOptions, inputsOf, outputChoice, REPORT, runChoice } from '../options/output-options.js';
import { LANGUAGES } from '../options/values.js';
import { CAUTION, EXIT_CODES, INPUTS } from '../output/help.js';
import { recordIn, runJobs } from './run.js';
import { SUMMARIES } from './summaries.js';

export function buildClear(parser: Argv): Argv {
  const own = addSomeMarkOptions(addOutputOptions(parser), ['config']).option('language', {
    ...valued(REPORT, 'Language of the summary [en]'),
    choices: LANGUAGES,
  });
  return addLimitOptions(own)
    .usage(`handline clear IN... [-o OUT | --out-dir DIR | --in-place]\n\n${SUMMARIES.clear}. ${INPUTS}`)
    .example('handline clear marked.musicxml -o waltz.musicxml', 'back to the original')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline clear`. */
export async function runClear(args: Arguments, streams: Streams): Promise<ExitCode> {
  const language = chosen<Language>(await configured(args), 'language') ?? 'en';
  const limits = limitsOf(args);
  const [output, choice] = [outputChoice(args), runChoice(args)];
  const jobs = await planJobs(inputsOf(args), output, streams.stdout.isTTY === true, streams.stdin);
  const work = { name: 'clear', options: { limits } } as const;
  const { ClearTally, whatIsLeft } = await import('../output/clear-summary.js');
  return runJobs(
    {
      jobs,
      choice,
      tally: new ClearTally(language, choice.report !== undefined),
      mostBytes: mostBytes(limits),
      work,
      ...recordIn(output, work),
      shortOf: whatIsLeft,
    },
    streams,
  );
}
