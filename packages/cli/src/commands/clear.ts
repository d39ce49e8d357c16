import { clear } from '@handline/core';
import type { Argv } from 'yargs';
import type { ExitCode } from '../exit.js';
import { planJobs } from '../files/jobs.js';
import { addLimitOptions, limitsOf, mostBytes } from '../options/limits.js';
import {
  type Arguments,
  addOutputOptions,
  inputsOf,
  outputChoice,
  reportChoice,
} from '../options/output-options.js';
import { clearSummary, whatIsLeft } from '../output/clear-summary.js';
import { CAUTION, EXIT_CODES, FORMATS } from '../output/help.js';
import { runJobs, type Streams } from './run.js';

export const CLEAR = "Take Handline's own marks out of scores again; everything else stays";

export function buildClear(parser: Argv): Argv {
  return addLimitOptions(addOutputOptions(parser))
    .usage(`handline clear IN... [-o OUT | --out-dir DIR | --in-place]\n\n${CLEAR}. ${FORMATS}`)
    .example('handline clear marked.musicxml -o waltz.musicxml', 'back to the original')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline clear`. */
export async function runClear(args: Arguments, streams: Streams): Promise<ExitCode> {
  const limits = limitsOf(args);
  const jobs = await planJobs(inputsOf(args), outputChoice(args), streams.stdout.isTTY === true);
  const work = (bytes: Uint8Array, file: string) => clear(bytes, { file, limits });
  return runJobs(
    {
      jobs,
      choice: reportChoice(args),
      summary: clearSummary,
      mostBytes: mostBytes(limits),
      work,
      shortOf: whatIsLeft,
    },
    streams,
  );
}
