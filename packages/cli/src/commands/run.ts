import { Exit, type ExitCode, graver } from '../exit.js';
import { onInterruption, withoutBreak } from '../files/interruption.js';
import { type Job, shown } from '../files/jobs.js';
import { VERSION } from '../files/version.js';
import { guarded } from '../files/write.js';
import { deliver } from '../jobs/deliver.js';
import type { Failure } from '../jobs/failed.js';
import { InOrder } from '../jobs/in-order.js';
import { inTurn } from '../jobs/in-turn.js';
import type { Performed, Work } from '../jobs/perform.js';
import { performers } from '../jobs/performers.js';
import { DoneRecord } from '../jobs/record.js';
import { ClosedPipe, type Streams, send } from '../jobs/streams.js';
import { type Surveyed, survey } from '../jobs/survey.js';
import type { OutputChoice, ReportChoice, RunChoice } from '../options/output-options.js';
import type { Findings, Outcome, Tally } from '../outcome.js';
import { oneLine } from '../output/line.js';
import { progressOf } from '../output/progress.js';
import { Reports } from '../output/reports.js';

export interface Task {
  readonly jobs: readonly Job[];
  readonly work: Work;
  readonly tally: Tally;
  readonly choice: ReportChoice & Partial<RunChoice>;
  readonly mostBytes: number;
  /** The folder of results, with what its record is to tell runs with other options by. */
  readonly record?: { readonly folder: string; readonly options: unknown };
  /** What a result lacks although it is written, as one line; undefined where it lacks nothing. */
  readonly shortOf?: (findings: Findings) => string | undefined;
}

/** The record that a run into a folder keeps. */
export function recordIn({ outDir }: OutputChoice, work: Work): Pick<Task, 'record'> {
  return outDir === undefined ? {} : { record: { folder: outDir, options: { version: VERSION, work } } };
}

interface Done {
  readonly outcome: Outcome;
  readonly exit: ExitCode;
  readonly short?: string;
}

/** Does all jobs, several at once; a bad one does not stop the others. Returns the exit code. */
export async function runJobs(task: Task, streams: Streams): Promise<ExitCode> {
  const { jobs, choice, tally } = task;
  const record = recordOf(task);
  const surveyed = await survey(jobs, choice.skipDone === true ? record : undefined);
  if (choice.dryRun === true) return tellPlan(surveyed, streams);

  const reports = await Reports.open(
    choice,
    scoreToStdout(jobs) ? streams.stderr : streams.stdout,
    choice.skipDone === true,
  );
  const progress = await progressOf(jobs.length, choice, streams);
  const callOff = jobs.length > 1 ? onInterruption(() => progress.interrupted()) : () => undefined;
  const waiting = surveyed.filter(({ done, failure }) => !done && failure === undefined).length;
  const order = { work: task.work, mostBytes: task.mostBytes };
  const doers = await performers(order, waiting, choice.jobs, streams.stdin);
  let exit: ExitCode = Exit.ok;
  let unread = false;
  let isWhole = false;
  const told = new InOrder<Done>();
  const conclude = async (place: number, one: Surveyed, performed: Performed | undefined): Promise<void> => {
    const done = await concluded(one, performed, task, record, streams);
    unread ||= done === undefined;
    if (done === undefined) return;
    exit = graver(exit, done.exit);
    await reports.add(place, done.outcome);
    for (const { outcome, short } of told.add(place, briefly(done))) {
      tally.add(outcome);
      const message = outcome.error?.message ?? short;
      // Standard error is the report itself then, and holds the error.
      if (message !== undefined && !(choice.json && scoreToStdout(jobs)))
        progress.say(`handline: ${message}`);
    }
    progress.step(done.outcome.status);
  };
  const take = async (place: number, one: Surveyed): Promise<void> => {
    const isLeft = !one.done && one.failure === undefined;
    const performed = isLeft ? await doers.perform(one.job) : undefined;
    await withoutBreak(() => conclude(place, one, performed));
  };
  try {
    await inTurn(surveyed, doers.atOnce, take);
    isWhole = true;
  } finally {
    progress.end();
    await doers.end();
    await record?.end(choice.skipDone === true || exit !== Exit.ok || !isWhole);
    callOff();
  }
  if (unread) return Exit.unread;
  await reports.end(choice.quiet || choice.json ? '' : tally.text());
  return exit;
}

/** Without the slices, which are most of a report and in no summary: it may have to wait for an earlier score. */
function briefly({ outcome, ...done }: Done): Done {
  const { result } = outcome;
  if (result?.report === undefined) return { outcome, ...done };
  const lines = result.report.lines.map((line) => ({ ...line, slices: [] }));
  return { outcome: { ...outcome, result: { ...result, report: { ...result.report, lines } } }, ...done };
}

function scoreToStdout(jobs: readonly Job[]): boolean {
  return jobs.some((job) => job.destination.kind === 'stdout');
}

function recordOf({ jobs, choice, record }: Task): DoneRecord | undefined {
  if (record === undefined || (jobs.length === 1 && choice.skipDone !== true)) return undefined;
  return new DoneRecord(record.folder, record.options);
}

/**
 * Writes a result. Undefined where nobody reads it.
 *
 * @param performed undefined where there was nothing to do
 */
async function concluded(
  { job, failure }: Surveyed,
  performed: Performed | undefined,
  task: Task,
  record: DoneRecord | undefined,
  streams: Streams,
): Promise<Done | undefined> {
  const file = shown(job.input, 'input');
  const { destination } = job;
  if (failure !== undefined) return ended(file, failure);
  if (performed === undefined) {
    const output = 'path' in destination ? destination.path : '-';
    return { outcome: { input: file, output, status: 'done' }, exit: Exit.ok };
  }
  if ('failure' in performed) return ended(file, performed.failure);
  const { findings, changed, output } = performed;
  try {
    if (destination.kind === 'file' && performed.state !== undefined) {
      const { state } = performed;
      await guarded(async () => record?.note(destination.path, output, state));
    }
    const delivered = await deliver(job, performed, performed, streams);
    const outcome = { input: file, ...delivered, changed, result: findings };
    const short = task.shortOf?.(findings);
    if (outcome.status === 'differs') return { outcome, exit: Exit.differs };
    if (short === undefined) return { outcome, exit: Exit.ok };
    return { outcome, exit: Exit.left, short: oneLine(`${file}: ${short}`) };
  } catch (error) {
    if (error instanceof ClosedPipe) return undefined;
    const { failed } = await import('../jobs/failed.js');
    return ended(file, failed(error, file, destination), findings);
  }
}

function ended(file: string, { exit, ...failure }: Failure, result?: Findings): Done {
  return { outcome: { input: file, ...failure, ...(result === undefined ? {} : { result }) }, exit };
}

/** What a run would do, a line for every score. */
async function tellPlan(surveyed: readonly Surveyed[], streams: Streams): Promise<ExitCode> {
  let exit: ExitCode = Exit.ok;
  const lines = surveyed.map(({ job, done, failure }) => {
    const { destination } = job;
    if (failure !== undefined) exit = graver(exit, failure.exit);
    const where = 'path' in destination ? destination.path : 'standard output';
    const note = done
      ? ' (done already)'
      : failure === undefined
        ? ''
        : ` (not possible: ${failure.error?.message})`;
    return `${oneLine(`${shown(job.input, 'input')} -> ${where}${note}`)}\n`;
  });
  await send(streams.stdout, lines.join(''));
  return exit;
}
