import { type DrillProgress, drill } from '@handline/core';
import type { Argv } from 'yargs';
import { type ExitCode, usageError } from '../exit.js';
import { destinationOf, planJobs } from '../files/jobs.js';
import { addDrillOptions, drillOptions } from '../options/drill-options.js';
import { sourceFile, sourceOf } from '../options/drill-sources.js';
import { mostBytes } from '../options/limits.js';
import { type Arguments, outputChoice, reportChoice } from '../options/output-options.js';
import { CAUTION, EXIT_CODES } from '../output/help.js';
import { markSummary } from '../output/mark-summary.js';
import { runJobs, type Streams } from './run.js';

export const DRILL = 'Make a technique sheet: scales, arpeggios, fragments, fingered and with cues';

/** Stands for the input in messages. */
const SHEET = 'sheet';
/** Characters of the bar. */
const BAR = 30;

export function buildDrill(parser: Argv): Argv {
  return addDrillOptions(parser)
    .usage(`handline drill [-o OUT] [options]\n\n${DRILL}.`)
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
      ? [{ input: SHEET, destination: destinationOf(SHEET, 1, outputChoice(args), toScreen) }]
      : await planJobs([file], outputChoice(args), toScreen);
  const progress = choice.quiet || choice.json ? undefined : progressBar(streams);
  const work = (bytes: Uint8Array) => {
    const source = file === undefined ? {} : sourceOf(args, file, bytes);
    try {
      const { output, report } = drill({ ...options, ...source }, progress?.show);
      return { output: new TextEncoder().encode(output), report, warnings: report.warnings };
    } finally {
      progress?.clear();
    }
  };
  return runJobs(
    {
      jobs,
      choice,
      summary: markSummary,
      mostBytes: mostBytes({}),
      work,
      ...(file === undefined && { source: NOTHING }),
    },
    streams,
  );
}

/** A sheet is made from options alone. */
const NOTHING = async () => ({ bytes: new Uint8Array() });

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
