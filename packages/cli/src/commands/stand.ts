import { annotate } from '@handline/core';
import type { Argv } from 'yargs';
import { type ExitCode, usageError } from '../exit.js';
import { planJobs, planMade } from '../files/jobs.js';
import { refusePageName } from '../files/kinds.js';
import type { Work } from '../jobs/perform.js';
import type { Streams } from '../jobs/streams.js';
import { type Arguments, defined, text } from '../options/arguments.js';
import { configured } from '../options/config.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { markOptions } from '../options/mark-options.js';
import { outputChoice, reportChoice } from '../options/output-options.js';
import { addStandOptions } from '../options/stand-options.js';
import { CAUTION, EXIT_CODES } from '../output/help.js';
import { PageTally } from '../output/page-summary.js';
import type { Start } from '../pages/stand/start.js';
import { standPage } from '../pages/stand-page.js';
import { runJobs } from './run.js';
import { SUMMARIES } from './summaries.js';

/** Stands for the input in messages where there is none. */
const PAGE = 'stand';
const ONE_SCORE = 'a stand begins with one score at most; the page opens others';

export function buildStand(parser: Argv): Argv {
  return addLimitOptions(addStandOptions(parser))
    .usage(
      `handline stand [IN] -o stand.html\n\n${SUMMARIES.stand}. IN is a MusicXML file (.musicxml, .xml, .mxl) to begin with, or - for standard input.`,
    )
    .example('handline stand -o stand.html', 'a page that opens any score')
    .example('handline stand waltz.mxl --for Ida -o ida.html', 'one that begins with a score')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline stand`. */
export async function runStand(typed: Arguments, streams: Streams): Promise<ExitCode> {
  const inputs = typed._.slice(1).map(String);
  if (inputs.length > 1) throw usageError(ONE_SCORE);
  const { span, layers, density, language, limits } = markOptions(await configured(typed));
  const marking: NonNullable<Start['marking']> = defined({ span, layers, density, language });
  const student = text(typed, 'for');
  const begin = { marking, ...(student !== undefined && { student }) };
  const output = outputChoice(typed);
  const toScreen = streams.stdout.isTTY === true;
  const jobs =
    inputs.length === 0
      ? [planMade(PAGE, output, toScreen, refusePageName)]
      : await planJobs(inputs, output, toScreen, streams.stdin, refusePageName, ONE_SCORE);
  const page = await standPage();
  const work: Work =
    inputs.length === 0
      ? { name: 'make', make: () => ({ output: page(begin), warnings: [] }) }
      : (bytes, file) => {
          const { report } = annotate(bytes, { ...marking, ...(limits && { limits }), file });
          const score = { name: nameOf(file, bytes), base64: Buffer.from(bytes).toString('base64') };
          return { output: page({ score, ...begin }), warnings: report.warnings };
        };
  return runJobs(
    {
      jobs,
      choice: reportChoice(typed),
      tally: new PageTally(marking.language ?? 'en'),
      mostBytes: mostBytes(limits ?? {}),
      work,
    },
    streams,
  );
}

/** Without its folders; what came by standard input gets a name that fits. */
function nameOf(file: string, bytes: Uint8Array): string {
  const [, name = ''] = /([^/\\]*)$/.exec(file) ?? [];
  if (/\.\w+$/.test(name)) return name;
  return bytes[0] === 0x50 && bytes[1] === 0x4b ? 'score.mxl' : 'score.musicxml';
}
