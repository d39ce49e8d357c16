import type { Argv } from 'yargs';
import type { ExitCode } from '../exit.js';
import { planJobs } from '../files/jobs.js';
import type { Streams } from '../jobs/streams.js';
import type { Arguments } from '../options/arguments.js';
import { configured } from '../options/config.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { addMarkOptions, markOptions } from '../options/mark-options.js';
import { addOutputOptions, inputsOf, outputChoice, runChoice } from '../options/output-options.js';
import { CAUTION, EXIT_CODES, INPUTS } from '../output/help.js';
import { recordIn, runJobs } from './run.js';
import { SUMMARIES } from './summaries.js';

export function buildMark(parser: Argv): Argv {
  return addLimitOptions(addMarkOptions(addOutputOptions(parser)))
    .usage(`handline mark IN... [-o OUT | --out-dir DIR | --in-place]\n\n${SUMMARIES.mark}. ${INPUTS}`)
    .example('handline mark waltz.musicxml -o marked.musicxml', 'one score')
    .example(
      'handline mark edition --out-dir marked --skip-done',
      'a folder and its subfolders, or what is left of them',
    )
    .example('handline mark *.mxl --out-dir marked --span 8th', 'several scores for a small hand')
    .example('handline mark - < waltz.musicxml > marked.musicxml', 'in a pipe')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline mark`. */
export async function runMark(typed: Arguments, streams: Streams): Promise<ExitCode> {
  const args = await configured(typed);
  const options = markOptions(args);
  const [output, choice] = [outputChoice(args), runChoice(args)];
  const jobs = await planJobs(inputsOf(args), output, streams.stdout.isTTY === true, streams.stdin);
  const work = { name: 'mark', options } as const;
  // The slices are most of a report, and no summary reads them.
  const full = choice.json || choice.report !== undefined;
  const { MarkTally } = await import('../output/mark-summary.js');
  return runJobs(
    {
      jobs,
      choice,
      tally: new MarkTally(options.language ?? 'en', choice.report !== undefined),
      mostBytes: mostBytes(options.limits ?? {}),
      work: { name: 'mark', options: { ...options, nextBest: full, slices: full } },
      ...recordIn(output, work),
    },
    streams,
  );
}
