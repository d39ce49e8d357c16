import type { Writable } from 'node:stream';
import { type MarkReviewOptions, markReview, type ReviewOptions } from '@handline/core';
import type { Argv } from 'yargs';
import { CliError, Exit, type ExitCode, graver, usageError } from '../exit.js';
import { expandInputs } from '../files/inputs.js';
import { eachOnce, type Job, planJobs, shown } from '../files/jobs.js';
import { type FileState, readSource } from '../files/read.js';
import { deliver } from '../jobs/deliver.js';
import { failed } from '../jobs/failed.js';
import { inTurn } from '../jobs/in-turn.js';
import { type Performers, performers } from '../jobs/performers.js';
import { ClosedPipe, type Streams, send } from '../jobs/streams.js';
import { type Arguments, flag, text } from '../options/arguments.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { inputsOf, jobsOf, outputChoice, reportChoice } from '../options/output-options.js';
import {
  addReviewOptions,
  failingLevels,
  reviewArguments,
  reviewOptions,
} from '../options/review-options.js';
import type { Outcome } from '../outcome.js';
import { CAUTION, EXIT_CODES, INPUTS } from '../output/help.js';
import { progressOf } from '../output/progress.js';
import { Reports } from '../output/reports.js';
import { EarlierReviews, optionsPrint } from '../reviews/earlier.js';
import { type PagesChoice, type ReviewEntry, ReviewPages } from '../reviews/pages.js';
import { SUMMARIES } from './summaries.js';

export function buildReview(parser: Argv): Argv {
  return addLimitOptions(addReviewOptions(parser))
    .usage(`handline review SCORE... [options]\n\n${SUMMARIES.review}. ${INPUTS}`)
    .example('handline review waltz.musicxml --measures 5-12', 'what a passage costs, and the easier way')
    .example(
      'handline review edition --fail-on change --report found.jsonl',
      'a folder, and a line of JSON for each score',
    )
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** `handline review`. */
export async function runReview(typed: Arguments, streams: Streams): Promise<ExitCode> {
  const args = await reviewArguments(typed);
  const options = reviewOptions(args);
  const failing = failingLevels(args);
  const pagesChoice = pagesOf(args, options);
  const report = reportChoice(args);
  const inputs = await reviewed(args, streams);
  const job = await outputJob(inputs, args);
  const stream = job?.destination.kind === 'stdout' ? streams.stderr : streams.stdout;
  // Pages that come one after the other show how far it is.
  const onScreen = stream.isTTY === true && pagesChoice.form !== 'json';
  const choice = { ...report, quiet: report.quiet || onScreen, jobs: jobsOf(args) };
  const most = mostBytes(options.limits ?? {});
  const work = {
    name: 'review',
    options: { ...options, ...(await secondScore(args, streams, most)) },
  } as const;
  const print = optionsPrint(work.options);
  const earlier = await earlierReviews(args, choice.report);
  const lines = await Reports.open({ ...choice, json: false }, stream, earlier !== undefined);
  const progress = await progressOf(inputs.length, choice, streams);
  const order = { work, mostBytes: most };
  const doers = await performers(order, inputs.length, choice.jobs, streams.stdin);
  const pages = new ReviewPages(pagesChoice);
  const out = new Printed(stream);
  let exit: ExitCode = Exit.ok;
  const take = async (place: number, input: string): Promise<void> => {
    const row = await earlier?.rowOf(input, print);
    const done = row ? alreadyDone(input) : await reviewOne(input, job, doers, args, options, streams);
    const { entry, status, state } = done;
    const levels = (row ?? entry.review)?.levels;
    exit = graver(exit, done.exit);
    if (levels && failing.some((level) => levels[level] > 0)) exit = graver(exit, Exit.found);
    if (!row) {
      const outcome = {
        input: entry.input,
        status,
        ...(entry.error && { error: entry.error }),
        ...done.found,
      };
      const { size, modified } = state ?? {};
      await lines.add(place, outcome, state && { state: { size, modified, options: print } });
    }
    if (entry.error && (pagesChoice.form !== 'json' || stream === streams.stdout))
      progress.say(`handline: ${entry.error.message}`);
    await out.print(pages.add(place, entry, row));
    progress.step(status);
  };
  try {
    await inTurn(inputs, doers.atOnce, take);
  } finally {
    progress.end();
    await doers.end();
  }
  await lines.end('');
  await out.print(pages.end());
  return out.isRead ? exit : Exit.unread;
}

function pagesOf(args: Arguments, { language = 'en' }: ReviewOptions): PagesChoice {
  const form = flag(args, 'json') ? 'json' : flag(args, 'markdown') ? 'markdown' : 'text';
  return { form, all: flag(args, 'all'), language };
}

/** What an earlier run has written to the file of `--report`, where this one is to go on. */
async function earlierReviews(
  args: Arguments,
  report: string | undefined,
): Promise<EarlierReviews | undefined> {
  if (!flag(args, 'skip-done')) return undefined;
  if (report === undefined) throw usageError('--skip-done goes with --report FILE, in which it goes on');
  return EarlierReviews.read(report);
}

/** What is printed; where nobody reads on, the lines of the report are written all the same. */
class Printed {
  isRead = true;

  constructor(private readonly stream: Writable) {}

  async print(text: string): Promise<void> {
    if (text === '' || !this.isRead) return;
    try {
      await send(this.stream, text);
    } catch (error) {
      if (!(error instanceof ClosedPipe)) throw error;
      this.isRead = false;
    }
  }
}

/** The scores that are named, each once. */
async function reviewed(args: Arguments, streams: Streams): Promise<readonly string[]> {
  const inputs = await eachOnce(await expandInputs(inputsOf(args), streams.stdin, undefined));
  return [...inputs.values()].map(({ path }) => path);
}

/** Where the score with the findings goes, if it is asked for. */
async function outputJob(inputs: readonly string[], args: Arguments): Promise<Job | undefined> {
  const choice = outputChoice(args);
  const form = text(args, 'mark');
  if (choice.output === undefined) {
    if (form !== undefined || choice.force) throw usageError('--mark and --force need -o OUT');
    return undefined;
  }
  if (inputs.length > 1) throw usageError('-o OUT takes one score; review the others without it');
  const [job] = await planJobs(inputs, choice, false);
  return job;
}

/** What became of one score, and where a line of the report tells of it. */
interface Done {
  readonly entry: ReviewEntry;
  readonly exit: ExitCode;
  readonly status: Outcome['status'];
  readonly state?: FileState;
  readonly found?: Pick<Outcome, 'result'>;
}

function alreadyDone(input: string): Done {
  return { entry: { input: shown(input, 'input') }, exit: Exit.ok, status: 'done' };
}

async function reviewOne(
  input: string,
  job: Job | undefined,
  doers: Performers,
  args: Arguments,
  { limits = {} }: ReviewOptions,
  streams: Streams,
): Promise<Done> {
  const file = shown(input, 'input');
  const destination = job?.destination ?? { kind: 'stdout' };
  const performed = await doers.perform({ input, destination: { kind: 'stdout' } });
  if ('failure' in performed) {
    const { exit, status, error } = performed.failure;
    return { entry: { input: file, ...(error && { error }) }, exit, status };
  }
  const { findings, output: bytes, state } = performed;
  const review = findings.review!;
  try {
    if (job) {
      const form = (text(args, 'mark') ?? 'numbers') as NonNullable<MarkReviewOptions['form']>;
      const output = markReview(bytes, review, { file, form, limits });
      await deliver(job, state ? { state } : {}, { changed: true, output }, streams);
    }
    const status = job ? 'written' : 'unchanged';
    const found = { result: findings };
    return { entry: { input: file, review }, exit: Exit.ok, status, found, ...(state && { state }) };
  } catch (error) {
    const { exit, status, error: found } = failed(error, file, destination);
    return { entry: { input: file, ...(found && { error: found }) }, exit, status };
  }
}

async function secondScore(
  args: Arguments,
  streams: Streams,
  most: number,
): Promise<Pick<ReviewOptions, 'against'>> {
  const against = text(args, 'against');
  if (against === undefined) return {};
  try {
    return { against: (await readSource(against, streams.stdin, most)).bytes };
  } catch (error) {
    if (!(error instanceof CliError)) throw error;
    throw new CliError(error.exit, `--against ${against}: ${error.message}`);
  }
}
