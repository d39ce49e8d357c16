import { type AnnotateOptions, annotate } from '@handline/core';
import type { Argv } from 'yargs';
import type { ExitCode } from '../exit.js';
import { planJobs } from '../files/jobs.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { addMarkOptions, markOptions } from '../options/mark-options.js';
import {
  type Arguments,
  addOutputOptions,
  inputsOf,
  outputChoice,
  reportChoice,
} from '../options/output-options.js';
import type { Result } from '../outcome.js';
import { CAUTION, EXIT_CODES, FORMATS } from '../output/help.js';
import { markSummary } from '../output/mark-summary.js';
import { runJobs, type Streams } from './run.js';

export const MARK = 'Write fingering and motion cues into scores';

export function buildMark(parser: Argv): Argv {
  return addLimitOptions(addMarkOptions(addOutputOptions(parser)))
    .usage(`handline mark IN... [-o OUT | --out-dir DIR | --in-place]\n\n${MARK}. ${FORMATS}`)
    .example('handline mark waltz.musicxml -o marked.musicxml', 'one score')
    .example('handline mark *.mxl --out-dir marked --span 8th', 'a folder of scores for a small hand')
    .example('handline mark - < waltz.musicxml > marked.musicxml', 'in a pipe')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline mark`. */
export async function runMark(args: Arguments, streams: Streams): Promise<ExitCode> {
  const options = markOptions(args);
  const jobs = await planJobs(inputsOf(args), outputChoice(args), streams.stdout.isTTY === true);
  const choice = reportChoice(args);
  return runJobs(
    {
      jobs,
      choice,
      summary: markSummary,
      mostBytes: mostBytes(options.limits ?? {}),
      work: (bytes, file) => mark(bytes, { ...options, file, nextBest: choice.json }),
    },
    streams,
  );
}

function mark(bytes: Uint8Array, options: AnnotateOptions): Result {
  const { output, report } = annotate(bytes, options);
  return { output, report, warnings: report.warnings };
}
