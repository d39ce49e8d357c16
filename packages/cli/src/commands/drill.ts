import { type DrillOptions, type DrillProgress, drill } from '@handline/core';
import type { Argv } from 'yargs';
import { type ExitCode, usageError } from '../exit.js';
import type { Inputs } from '../files/inputs.js';
import { destinationOf, planJobs } from '../files/jobs.js';
import type { Work } from '../jobs/perform.js';
import type { Streams } from '../jobs/streams.js';
import { addDrillOptions, drillOptions } from '../options/drill-options.js';
import { sourceFile, sourceOf } from '../options/drill-sources.js';
import { mostBytes } from '../options/limits.js';
import { type Arguments, outputChoice, reportChoice } from '../options/output-options.js';
import type { Result } from '../outcome.js';
import { CAUTION, EXIT_CODES } from '../output/help.js';
import { MarkTally } from '../output/mark-summary.js';
import { runJobs } from './run.js';
import { SUMMARIES } from './summaries.js';

/** Stands for the input in messages. */
const SHEET = 'sheet';
const ALONE: Inputs = { list: [], shared: '', many: false };
/** Characters of the bar. */
const BAR = 30;

export function buildDrill(parser: Argv): Argv {
  return addDrillOptions(parser)
    .usage(`handline drill [-o OUT] [options]\n\n${SUMMARIES.drill}.`)
    .example('handline drill --keys all --kinds major,harmonic-minor -o scales.musicxml', 'all 24 keys')
    .example(
      'handline drill --keys Ab,E --fragments 5-8 --span 8th -o sheet.musicxml',
      'every turn of a scale',
    )
    .example(
      'handline drill --keys all --awkward 8 -o sheet.musicxml',
      'where the scale fingering costs most',
    )
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline drill`. */
export async function runDrill(args: Arguments, streams: Streams): Promise<ExitCode> {
  const [extra] = args._.slice(1);
  if (extra !== undefined) throw usageError(`drill makes a new sheet and takes no score: "${extra}"`);
  const options = drillOptions(args);
  const choice = reportChoice(args);
  const file = sourceFile(args);
  const toScreen = streams.stdout.isTTY === true;
  const jobs =
    file === undefined
      ? [{ input: SHEET, destination: destinationOf(SHEET, ALONE, outputChoice(args), toScreen) }]
      : await planJobs([file], outputChoice(args), toScreen);
  const progress = choice.quiet || choice.json ? undefined : progressBar(streams);
  const make = (source: Pick<DrillOptions, 'motive' | 'study'>): Result => {
    try {
      const { output, report } = drill({ ...options, ...source }, progress?.show);
      return { output: new TextEncoder().encode(output), report, warnings: report.warnings };
    } finally {
      progress?.clear();
    }
  };
  const work: Work =
    file === undefined
      ? { name: 'make', make: () => make({}) }
      : (bytes) => make(sourceOf(args, file, bytes));
  return runJobs({ jobs, choice, tally: new MarkTally(), mostBytes: mostBytes({}), work }, streams);
}

/** On a terminal only. */
function progressBar({ stderr }: Streams) {
  if (!stderr.isTTY) return undefined;
  return {
    show: ({ stage, done }: DrillProgress) => {
      const full = Math.round(BAR * done);
      stderr.write(`\r[${'#'.repeat(full)}${'-'.repeat(BAR - full)}] ${stage.padEnd('composing'.length)}`);
    },
    clear: () => stderr.write(`\r${' '.repeat(BAR + 'composing'.length + 3)}\r`),
  };
}
