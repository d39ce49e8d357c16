import {
  type Review,
  type ReviewOptions,
  review,
  reviewMarkdown,
  reviewsTable,
  reviewText,
} from '@handline/core';
import type { Argv } from 'yargs';
import { Exit, type ExitCode, graver } from '../exit.js';
import { shown } from '../files/jobs.js';
import { readSource } from '../files/read.js';
import { addLimitOptions, mostBytes } from '../options/limits.js';
import { type Arguments, flag, inputsOf } from '../options/output-options.js';
import { addReviewOptions, failingLevels, reviewOptions } from '../options/review-options.js';
import type { Outcome } from '../outcome.js';
import { CAUTION, EXIT_CODES, FORMATS } from '../output/help.js';
import { oneLine } from '../output/line.js';
import { failed, type Streams, send } from './run.js';

export const REVIEW =
  'Judge the digits that scores have: what they cost in movement, why, and the easier way';

export function buildReview(parser: Argv): Argv {
  return addLimitOptions(addReviewOptions(parser))
    .usage(`handline review SCORE... [options]\n\n${REVIEW}. ${FORMATS}`)
    .example(
      'handline review waltz.musicxml --measures 5-12 --try "m7 right 2 3 1 2 3"',
      'what is easier there?',
    )
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
  const entries: Entry[] = [];
  let exit: ExitCode = Exit.ok;
  for (const input of inputs) {
    const done = await reviewOne(input, options, streams);
    entries.push(done.entry);
    if (done.entry.error) {
      if (!flag(args, 'json')) streams.stderr.write(`handline: ${done.entry.error.message}\n`);
    } else if (failing.some((level) => done.entry.review!.levels[level] > 0)) exit = graver(exit, Exit.found);
    exit = graver(exit, done.exit);
  }
  const text = flag(args, 'json')
    ? `${JSON.stringify({ files: entries }, null, 2)}\n`
    : pages(entries, args, options.language ?? 'en');
  if (text !== '') await send(streams.stdout, text);
  return exit;
}

async function reviewOne(
  input: string,
  options: ReviewOptions,
  streams: Streams,
): Promise<{ entry: Entry; exit: ExitCode }> {
  const file = shown(input, 'input');
  try {
    const { bytes } = await readSource(input, streams.stdin, mostBytes(options.limits ?? {}));
    return { entry: { input: file, review: review(bytes, { ...options, file }) }, exit: Exit.ok };
  } catch (error) {
    const { exit, error: found } = failed(error, file, { kind: 'stdout' });
    return { entry: { input: file, error: found }, exit };
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
