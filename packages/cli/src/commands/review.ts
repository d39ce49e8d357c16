import {
  type MarkReviewOptions,
  markReview,
  type Review,
  type ReviewOptions,
  review,
  reviewMarkdown,
  reviewsTable,
  reviewText,
} from '@handline/core';
import type { Argv } from 'yargs';
import { CliError, Exit, type ExitCode, graver, usageError } from '../exit.js';
import { type Job, planJobs, shown } from '../files/jobs.js';
import { readSource } from '../files/read.js';
import { deliver } from '../jobs/deliver.js';
import { failed } from '../jobs/failed.js';
import { type Streams, send } from '../jobs/streams.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { type Arguments, flag, inputsOf, outputChoice, text } from '../options/output-options.js';
import { addReviewOptions, failingLevels, reviewOptions } from '../options/review-options.js';
import type { Outcome } from '../outcome.js';
import { CAUTION, EXIT_CODES, FORMATS } from '../output/help.js';
import { oneLine } from '../output/line.js';
import { SUMMARIES } from './summaries.js';

export function buildReview(parser: Argv): Argv {
  return addLimitOptions(addReviewOptions(parser))
    .usage(`handline review SCORE... [options]\n\n${SUMMARIES.review}. ${FORMATS}`)
    .example('handline review waltz.musicxml --measures 5-12', 'what a passage costs, and the easier way')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`);
}

/** What became of one score. */
interface Entry {
  readonly input: string;
  readonly review?: Review;
  readonly error?: Outcome['error'];
}

/** `handline review`. */
export async function runReview(args: Arguments, streams: Streams): Promise<ExitCode> {
  const inputs = inputsOf(args);
  const options = reviewOptions(args);
  const failing = failingLevels(args);
  const job = await outputJob(inputs, args);
  const reports = job?.destination.kind === 'stdout' ? streams.stderr : streams.stdout;
  const entries: Entry[] = [];
  let exit: ExitCode = Exit.ok;
  for (const input of inputs) {
    const done = await reviewOne(input, options, job, args, streams);
    entries.push(done.entry);
    if (done.entry.error) {
      if (!flag(args, 'json') || reports === streams.stdout)
        streams.stderr.write(`handline: ${done.entry.error.message}\n`);
    } else if (failing.some((level) => done.entry.review!.levels[level] > 0)) exit = graver(exit, Exit.found);
    exit = graver(exit, done.exit);
  }
  const report = flag(args, 'json')
    ? `${JSON.stringify({ files: entries }, null, 2)}\n`
    : pages(entries, args, options.language ?? 'en');
  if (report !== '') await send(reports, report);
  return exit;
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
  options: ReviewOptions,
  job: Job | undefined,
  args: Arguments,
  streams: Streams,
): Promise<{ entry: Entry; exit: ExitCode }> {
  const file = shown(input, 'input');
  const destination = job?.destination ?? { kind: 'stdout' };
  try {
    const most = mostBytes(options.limits ?? {});
    const source = await readSource(input, streams.stdin, most);
    const own = review(source.bytes, { ...options, ...(await secondScore(args, streams, most)), file });
    if (job) {
      const form = (text(args, 'mark') ?? 'numbers') as NonNullable<MarkReviewOptions['form']>;
      const limits = options.limits ?? {};
      const output = markReview(source.bytes, own, { file, form, limits });
      await deliver(job, source, { changed: true, output }, streams);
    }
    return { entry: { input: file, review: own }, exit: Exit.ok };
  } catch (error) {
    const { exit, error: found } = failed(error, file, destination);
    return { entry: { input: file, error: found }, exit };
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
    throw error instanceof CliError
      ? new CliError(error.exit, `--against ${against}: ${error.message}`)
      : error;
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
