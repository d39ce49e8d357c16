import { resolve } from 'node:path';
import { type Drill, type DrillOptions, drill } from '@handline/core';
import type { Argv } from 'yargs';
import { CliError, Exit, type ExitCode, usageError } from '../exit.js';
import { type Job, planJobs, planMade } from '../files/jobs.js';
import { refusePageName } from '../files/kinds.js';
import { VERSION } from '../files/version.js';
import type { Work } from '../jobs/perform.js';
import type { Streams } from '../jobs/streams.js';
import { survey } from '../jobs/survey.js';
import { type Arguments, text } from '../options/arguments.js';
import { configured } from '../options/config.js';
import { addDrillOptions, drillOptions } from '../options/drill-options.js';
import { sourceFile, sourceOf } from '../options/drill-sources.js';
import { studentOf } from '../options/handout-options.js';
import { mostBytes } from '../options/limits.js';
import {
  type OutputChoice,
  outputChoice,
  type ReportChoice,
  reportChoice,
} from '../options/output-options.js';
import type { Result } from '../outcome.js';
import { CAUTION, EXIT_CODES } from '../output/help.js';
import { MarkTally } from '../output/mark-summary.js';
import { PageTally } from '../output/page-summary.js';
import { workBar } from '../output/work-bar.js';
import { runJobs } from './run.js';
import { SUMMARIES } from './summaries.js';

/** Stands for the input in messages. */
const SHEET = 'sheet';

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
    .example('handline drill --keys D,A -o sheet.musicxml --page sheet.html', 'with a page to print')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline drill`. */
export async function runDrill(typed: Arguments, streams: Streams): Promise<ExitCode> {
  const [extra] = typed._.slice(1);
  if (extra !== undefined) throw usageError(`drill makes a new sheet and takes no score: "${extra}"`);
  const args = await configured(typed);
  const options = drillOptions(args);
  const choice = reportChoice(args);
  const output = outputChoice(args);
  const file = sourceFile(args);
  const toScreen = streams.stdout.isTTY === true;
  const jobs =
    file === undefined ? [planMade(SHEET, output, toScreen)] : await planJobs([file], output, toScreen);
  const page = await plannedPage(args, output);
  const bar = choice.quiet || choice.json ? undefined : await workBar(streams);
  let made: Made | undefined;
  const make = (source: Pick<DrillOptions, 'motive' | 'study'>): Result => {
    bar?.start();
    try {
      const own = { ...options, ...source };
      const sheet = drill(own, ({ stage, done }) => bar?.show(stage, done));
      made = { sheet, options: own };
      const { output, report } = sheet;
      return { output: new TextEncoder().encode(output), report, warnings: report.warnings };
    } finally {
      bar?.end();
    }
  };
  const work: Work =
    file === undefined
      ? { name: 'make', make: () => make({}) }
      : (bytes) => make(sourceOf(args, file, bytes));
  const exit = await runJobs(
    {
      jobs,
      choice,
      tally: new MarkTally(options.language ?? 'en', choice.report !== undefined),
      mostBytes: mostBytes({}),
      work,
    },
    streams,
  );
  if (page === undefined || made === undefined || exit !== Exit.ok) return exit;
  return printPage(page, made, studentOf(args), { choice, streams });
}

interface Made {
  readonly sheet: Drill;
  readonly options: DrillOptions;
}

/** The page to print beside the sheet, looked at before there is a sheet. */
async function plannedPage(args: Arguments, { output, force }: OutputChoice): Promise<Job | undefined> {
  const path = text(args, 'page');
  if (path === undefined) return undefined;
  refusePageName(path, 'page');
  if (output !== undefined && resolve(output) === resolve(path))
    throw usageError(`--page ${path}: the sheet itself is to be written there; choose another name`);
  const job = { input: SHEET, destination: { kind: 'file', path, force, makeFolder: false } } as const;
  const [surveyed] = await survey([job], undefined);
  const failure = surveyed?.failure;
  if (failure) throw new CliError(failure.exit, failure.error?.message ?? path);
  return job;
}

async function printPage(
  page: Job,
  { sheet, options }: Made,
  student: string | undefined,
  { choice, streams }: { readonly choice: ReportChoice; readonly streams: Streams },
): Promise<ExitCode> {
  const [{ loadEngraver }, { handoutOfSheet }] = await Promise.all([
    import('../pages/engraver.js'),
    import('../pages/handout/sheet.js'),
  ]);
  const engraver = await loadEngraver();
  const own = { compare: false, version: VERSION, ...(student !== undefined && { student }) };
  const make = () => handoutOfSheet(sheet, options, own, engraver);
  const tally = new PageTally(options.language ?? 'en');
  // The report is the sheet's.
  const quiet = { json: false, quiet: choice.quiet || choice.json };
  return runJobs(
    { jobs: [page], choice: quiet, tally, mostBytes: mostBytes({}), work: { name: 'make', make } },
    streams,
  );
}
