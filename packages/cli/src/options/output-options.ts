import type { Argv } from 'yargs';
import { usageError } from '../exit.js';
import { type Arguments, defined, flag, parsed, text, valued } from './arguments.js';
import { parseCount } from './values.js';

const OUTPUT = 'Where the result goes (the input stays as it is unless --in-place is given):';
const MANY = 'Many scores:';
export const REPORT = 'What is reported:';

/** Where results go, as the command line says. */
export interface OutputChoice {
  readonly output?: string;
  readonly outDir?: string;
  /** The folder that `outDir` mirrors; the one that all scores share if left out. */
  readonly root?: string;
  readonly inPlace: boolean;
  readonly force: boolean;
  /** Compare instead of writing. */
  readonly check?: boolean;
}

/** How a run over many files goes, as the command line says. */
export interface RunChoice {
  /** Worker threads. */
  readonly jobs?: number;
  readonly skipDone: boolean;
  readonly dryRun: boolean;
}

/** How results are reported, as the command line says. */
export interface ReportChoice {
  readonly json: boolean;
  readonly quiet: boolean;
  /** File for a line of JSON about every input. */
  readonly report?: string;
}

export function addOutputOptions(parser: Argv): Argv {
  const withOutput = parser
    .option('output', {
      alias: 'o',
      ...valued(OUTPUT, 'Write the result to this file; - is standard output'),
    })
    .option(
      'out-dir',
      valued(OUTPUT, 'Write every result into this folder, which mirrors the folders of the scores'),
    )
    .option('root', valued(OUTPUT, 'The folder that --out-dir mirrors [the one that all scores share]'))
    .option('in-place', {
      group: OUTPUT,
      type: 'boolean',
      describe:
        'Change the files themselves; the old file is kept as NAME.bak (NAME.bak2, ... if that is taken)',
    })
    .option('force', { group: OUTPUT, type: 'boolean', describe: 'Overwrite an existing result' })
    .option('check', {
      group: OUTPUT,
      type: 'boolean',
      describe: 'Write nothing; exit code 7 if a result differs from the file in its place',
    })
    .conflicts('output', ['out-dir', 'in-place'])
    .conflicts('out-dir', 'in-place')
    .option('jobs', valued(MANY, 'Scores worked on at once [as many as there are cores]'))
    .option('skip-done', {
      group: MANY,
      type: 'boolean',
      describe: 'Pass over what an earlier run into --out-dir has done with the same options and scores',
    })
    .option('dry-run', {
      group: MANY,
      type: 'boolean',
      describe: 'Read no score; list what would be done and what could not be written',
    })
    .conflicts('check', ['in-place', 'skip-done', 'dry-run']);
  return addReportOptions(withOutput);
}

export function addReportOptions(parser: Argv): Argv {
  return parser
    .option('json', {
      group: REPORT,
      type: 'boolean',
      describe: 'Print the full report as JSON (on standard error when the score goes to standard output)',
    })
    .option(
      'report',
      valued(REPORT, 'Write the full report of every score to this file, a line of JSON each, as it is done'),
    )
    .option('quiet', { alias: 'q', group: REPORT, type: 'boolean', describe: 'Print errors only' })
    .conflicts('json', 'quiet');
}

/** The input names after the command word: files, folders, patterns, lists. */
export function inputsOf(args: Arguments): string[] {
  const inputs = args._.slice(1).map(String);
  if (inputs.length === 0)
    throw usageError('no score given; name one or more files, or - for standard input');
  if (inputs.includes(''))
    throw usageError('a file name is empty; name one or more files, or - for standard input');
  return inputs;
}

export function outputChoice(args: Arguments): OutputChoice {
  const output = text(args, 'output');
  const outDir = text(args, 'out-dir');
  return {
    ...(output === undefined ? {} : { output }),
    ...(outDir === undefined ? {} : { outDir }),
    ...defined({ root: text(args, 'root') }),
    inPlace: flag(args, 'in-place'),
    force: flag(args, 'force'),
    check: flag(args, 'check'),
  };
}

export function reportChoice(args: Arguments): ReportChoice {
  return {
    ...defined({ report: text(args, 'report') }),
    json: flag(args, 'json'),
    quiet: flag(args, 'quiet'),
  };
}

/** Worker threads, where the command line says how many. */
export function jobsOf(args: Arguments): number | undefined {
  return parsed(args, 'jobs', (jobs) => parseCount('jobs', jobs, 1));
}

export function runChoice(args: Arguments): ReportChoice & RunChoice {
  const skipDone = flag(args, 'skip-done');
  if (skipDone && text(args, 'out-dir') === undefined) {
    throw usageError(
      '--skip-done goes with --out-dir; in place, a score that is marked already stays as it is',
    );
  }
  return {
    ...reportChoice(args),
    ...defined({ jobs: jobsOf(args) }),
    skipDone,
    dryRun: flag(args, 'dry-run'),
  };
}
