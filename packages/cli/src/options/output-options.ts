import type { Argv } from 'yargs';
import { usageError } from '../exit.js';

const OUTPUT = 'Where the result goes (the input stays as it is unless --in-place is given):';
const REPORT = 'What is reported:';

/** Where results go, as the command line says. */
export interface OutputChoice {
  readonly output?: string;
  readonly outDir?: string;
  readonly inPlace: boolean;
  readonly force: boolean;
}

/** How results are reported, as the command line says. */
export interface ReportChoice {
  readonly json: boolean;
  readonly quiet: boolean;
}

/** What yargs hands over: values by option name as typed. */
export type Arguments = Readonly<Record<string, unknown>> & { readonly _: readonly (string | number)[] };

export function addOutputOptions(parser: Argv): Argv {
  const withOutput = parser
    .option('output', {
      alias: 'o',
      group: OUTPUT,
      type: 'string',
      requiresArg: true,
      describe: 'Write the result to this file; - is standard output',
    })
    .option('out-dir', {
      group: OUTPUT,
      type: 'string',
      requiresArg: true,
      describe: 'Write every result into this folder under its own name',
    })
    .option('in-place', {
      group: OUTPUT,
      type: 'boolean',
      describe:
        'Change the files themselves; the old file is kept as NAME.bak (NAME.bak2, ... if that is taken)',
    })
    .option('force', { group: OUTPUT, type: 'boolean', describe: 'Overwrite an existing result' })
    .conflicts('output', ['out-dir', 'in-place'])
    .conflicts('out-dir', 'in-place');
  return addReportOptions(withOutput);
}

export function addReportOptions(parser: Argv): Argv {
  return parser
    .option('json', {
      group: REPORT,
      type: 'boolean',
      describe: 'Print the full report as JSON (on standard error when the score goes to standard output)',
    })
    .option('quiet', { group: REPORT, type: 'boolean', describe: 'Print errors only' })
    .conflicts('json', 'quiet');
}

/** The text of an option that may be given once. */
export function text(args: Arguments, name: string): string | undefined {
  const value = args[name];
  if (value === undefined) return undefined;
  if (Array.isArray(value)) throw usageError(`--${name} is given more than once; give it once`);
  if (value === '') throw usageError(`--${name} is empty; give it a value or leave it out`);
  return String(value);
}

export function flag(args: Arguments, name: string): boolean {
  const value = args[name];
  if (Array.isArray(value)) throw usageError(`--${name} is given more than once; give it once`);
  return value === true;
}

/** The input names after the command word. */
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
    inPlace: flag(args, 'in-place'),
    force: flag(args, 'force'),
  };
}

export function reportChoice(args: Arguments): ReportChoice {
  return { json: flag(args, 'json'), quiet: flag(args, 'quiet') };
}
