import {
  type MarkReviewOptions,
  markReview,
  type Review,
  type ReviewOptions,
  reviewMarkdown,
  reviewsTable,
  reviewText,
} from '@handline/core';
import type { Argv } from 'yargs';
import { CliError, Exit, type ExitCode, graver, usageError } from '../exit.js';
import { expandInputs } from '../files/inputs.js';
import { type Job, planJobs, shown } from '../files/jobs.js';
import { readSource } from '../files/read.js';
import { deliver } from '../jobs/deliver.js';
import { failed } from '../jobs/failed.js';
import { inTurn } from '../jobs/in-turn.js';
import { type Performers, performers } from '../jobs/performers.js';
import { type Streams, send } from '../jobs/streams.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import {
  type Arguments,
  flag,
  inputsOf,
  jobsOf,
  outputChoice,
  reportChoice,
  text,
} from '../options/output-options.js';
import { addReviewOptions, failingLevels, reviewOptions } from '../options/review-options.js';
import type { Outcome } from '../outcome.js';
import { CAUTION, EXIT_CODES, INPUTS } from '../output/help.js';
import { oneLine } from '../output/line.js';
import { progressOf } from '../output/progress.js';
import { Reports } from '../output/reports.js';
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

/** What became of one score. */
interface Entry {
  readonly input: string;
  readonly review?: Review;
  readonly error?: NonNullable<Outcome['error']>;
}

/** `handline review`. */
export async function runReview(args: Arguments, streams: Streams): Promise<ExitCode> {
  const options = reviewOptions(args);
  const failing = failingLevels(args);
  const choice = { ...reportChoice(args), jobs: jobsOf(args) };
  const inputs = await reviewed(args, streams);
  const job = await outputJob(inputs, args);
  const reports = job?.destination.kind === 'stdout' ? streams.stderr : streams.stdout;
  const limits = options.limits ?? {};
  const most = mostBytes(limits);
  const second = await secondScore(args, streams, most);
  const work = { name: 'review', options: { ...options, ...second } } as const;
  const order = { work, mostBytes: most, full: true };
  const lines = await Reports.open({ ...choice, json: false }, reports);
  const progress = await progressOf(inputs.length, choice, streams);
  const doers = await performers(order, inputs.length, choice.jobs, streams.stdin);
  const entries: Entry[] = [];
  let exit: ExitCode = Exit.ok;
  const take = async (place: number, input: string): Promise<void> => {
    const done = await reviewOne(input, job, doers, args, limits, streams);
    entries[place] = done.entry;
    const { error, review: own } = done.entry;
    await lines.add(place, {
      input: done.entry.input,
      status: done.status,
      ...(error && { error }),
      ...done.found,
    });
    exit = graver(exit, done.exit);
    if (error && (!flag(args, 'json') || reports === streams.stdout))
      progress.say(`handline: ${error.message}`);
    if (own && failing.some((level) => own.levels[level] > 0)) exit = graver(exit, Exit.found);
    progress.step(done.status);
  };
  try {
    await inTurn(inputs, doers.atOnce, take);
  } finally {
    progress.end();
    await doers.end();
  }
  await lines.end('');
  const report = flag(args, 'json')
    ? `${JSON.stringify({ files: entries }, null, 2)}\n`
    : pages(entries, args, options.language ?? 'en');
  if (report !== '') await send(reports, report);
  return exit;
}

/** The scores that are named, each once. */
async function reviewed(args: Arguments, streams: Streams): Promise<readonly string[]> {
  const { list } = await expandInputs(inputsOf(args), streams.stdin, undefined);
  return [...new Set(list.map(({ path }) => path))];
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

async function reviewOne(
  input: string,
  job: Job | undefined,
  doers: Performers,
  args: Arguments,
  limits: NonNullable<ReviewOptions['limits']>,
  streams: Streams,
): Promise<{ entry: Entry; exit: ExitCode; status: Outcome['status']; found: Pick<Outcome, 'result'> }> {
  const file = shown(input, 'input');
  const destination = job?.destination ?? { kind: 'stdout' };
  const performed = await doers.perform({ input, destination: { kind: 'stdout' } });
  if ('failure' in performed) {
    const { exit, status, error } = performed.failure;
    return { entry: { input: file, ...(error && { error }) }, exit, status, found: {} };
  }
  const { findings, output: bytes, state } = performed;
  const own = findings.review!;
  try {
    if (job) {
      const form = (text(args, 'mark') ?? 'numbers') as NonNullable<MarkReviewOptions['form']>;
      const output = markReview(bytes, own, { file, form, limits });
      await deliver(job, state ? { state } : {}, { changed: true, output }, streams);
    }
    const status = job ? 'written' : 'unchanged';
    return { entry: { input: file, review: own }, exit: Exit.ok, status, found: { result: findings } };
  } catch (error) {
    const { exit, status, error: found } = failed(error, file, destination);
    return { entry: { input: file, ...(found && { error: found }) }, exit, status, found: {} };
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

/** Every review for people, and a table of several scores, worst first. */
function pages(
  entries: readonly Entry[],
  args: Arguments,
  language: NonNullable<ReviewOptions['language']>,
): string {
  const markdown = flag(args, 'markdown');
  const scores = entries.flatMap(({ input, review: own }) =>
    own ? [{ title: oneLine(input), review: own }] : [],
  );
  const texts = scores.map(({ title, review: own }) =>
    markdown ? reviewMarkdown(own, { title }) : reviewText(own, { title, all: flag(args, 'all') }),
  );
  if (scores.length > 1) texts.push(reviewsTable(scores, language, markdown ? 'markdown' : 'text'));
  return texts.join('\n');
}
