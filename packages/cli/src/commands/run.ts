import type { Readable, Writable } from 'node:stream';
import { HandlineError } from '@handline/core';
import { CliError, Exit, type ExitCode, graver } from '../exit.js';
import { type Destination, type Job, shown } from '../files/jobs.js';
import { readSource, type Source } from '../files/read.js';
import { inPlainWords } from '../files/trouble.js';
import { replaceInPlace, writeResult } from '../files/write.js';
import type { ReportChoice } from '../options/output-options.js';
import type { Findings, Outcome, Result } from '../outcome.js';
import { jsonReport } from '../output/json.js';
import { oneLine } from '../output/line.js';

/** The three streams of the process. */
export interface Streams {
  readonly stdin: Readable;
  readonly stdout: Writable & { readonly isTTY?: boolean };
  readonly stderr: Writable & { readonly isTTY?: boolean };
}

export interface Task {
  readonly jobs: readonly Job[];
  readonly work: (bytes: Uint8Array, file: string) => Result;
  readonly summary: (outcomes: readonly Outcome[]) => string;
  readonly choice: ReportChoice;
  readonly mostBytes: number;
  /** Where an input comes from, where it is no file. */
  readonly source?: () => Promise<Source>;
  /** What a result lacks although it is written, as one line; undefined where it lacks nothing. */
  readonly shortOf?: (findings: Findings) => string | undefined;
}

/** Does every job in turn; a bad one does not stop the others. Returns the exit code. */
export async function runJobs(task: Task, streams: Streams): Promise<ExitCode> {
  const { jobs, choice } = task;
  const scoreToStdout = jobs.some((job) => job.destination.kind === 'stdout');
  const reports = scoreToStdout ? streams.stderr : streams.stdout;
  const jsonToStderr = choice.json && scoreToStdout;
  const outcomes: Outcome[] = [];
  let exit: ExitCode = Exit.ok;
  for (const job of jobs) {
    const done = await runJob(job, task, streams);
    outcomes.push(done.outcome);
    exit = graver(exit, done.exit);
    const message = done.outcome.error?.message ?? done.short;
    // Standard error is the report itself then, and holds the error.
    if (message !== undefined && !jsonToStderr) streams.stderr.write(`handline: ${message}\n`);
  }
  const text = choice.json ? jsonReport(outcomes) : choice.quiet ? '' : task.summary(outcomes);
  if (text !== '') await send(reports, text);
  return exit;
}

async function runJob(
  job: Job,
  task: Task,
  streams: Streams,
): Promise<{ outcome: Outcome; exit: ExitCode; short?: string }> {
  const file = shown(job.input, 'input');
  let result: Findings | undefined;
  try {
    const source = await (task.source?.() ?? readSource(job.input, streams.stdin, task.mostBytes));
    const { output, ...findings } = task.work(source.bytes, file);
    result = findings;
    const changed = Buffer.compare(source.bytes, output) !== 0;
    const delivered = await deliver(job, source, { changed, output }, streams);
    const outcome = { input: file, ...delivered, changed, result };
    const short = task.shortOf?.(findings);
    if (short === undefined) return { outcome, exit: Exit.ok };
    return { outcome, exit: Exit.left, short: oneLine(`${file}: ${short}`) };
  } catch (error) {
    const { exit, ...failure } = failed(error, file, job.destination);
    return { outcome: { input: file, ...failure, ...(result === undefined ? {} : { result }) }, exit };
  }
}

export async function deliver(
  { destination }: Job,
  source: Source,
  result: { readonly changed: boolean; readonly output: Uint8Array },
  streams: Streams,
): Promise<Pick<Outcome, 'output' | 'backup' | 'status'>> {
  switch (destination.kind) {
    case 'stdout':
      await send(streams.stdout, result.output);
      return { output: '-', status: 'written' };
    case 'file':
      await writeResult(destination.path, result.output, destination);
      return { output: destination.path, status: 'written' };
    case 'in-place': {
      const { path } = destination;
      if (source.state === undefined || !result.changed) {
        return { output: path, status: 'unchanged' };
      }
      const backup = await replaceInPlace(path, result.output, source.state);
      return { output: path, backup, status: 'written' };
    }
  }
}

/** What became of a file that failed. */
export function failed(error: unknown, file: string, destination: Destination) {
  if (error instanceof HandlineError) {
    const { code, place, warning } = error;
    const named = place.file === undefined ? `${file}: ${error.message}` : error.message;
    return {
      status: 'refused',
      exit: code === 'OPTION' ? Exit.usage : Exit.refused,
      error: { code, message: oneLine(asTyped(named)), place, ...(warning && { warning: warning.code }) },
    } as const;
  }
  if (error instanceof CliError) {
    const status = error.exit === Exit.unwritten ? 'unwritten' : 'refused';
    const name =
      status === 'refused' ? file : destination.kind === 'stdout' ? 'standard output' : destination.path;
    return { status, exit: error.exit, error: { message: oneLine(`${name}: ${error.message}`) } } as const;
  }
  const message = `${file}: Handline failed (${inPlainWords(error)}); this is a defect, please report it`;
  return { status: 'defect', exit: Exit.defect, error: { message: oneLine(message) } } as const;
}

/** Core names its own options; here they are typed as `--max-bytes`. */
function asTyped(message: string): string {
  return message.replace(/\blimits\.max([A-Z][a-z]+)/g, (_, name: string) => `--max-${name.toLowerCase()}`);
}

export function send(stream: Writable, data: Uint8Array | string): Promise<void> {
  return new Promise((done, fail) => {
    stream.write(data, (error) => {
      if (error) fail(new CliError(Exit.unwritten, inPlainWords(error), { cause: error }));
      else done();
    });
  });
}
