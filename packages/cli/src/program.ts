import yargs from 'yargs';
import { buildClear, CLEAR, runClear } from './commands/clear.js';
import { buildHandout, HANDOUT, runHandout } from './commands/handout.js';
import { buildMark, MARK, runMark } from './commands/mark.js';
import { buildReview, REVIEW, runReview } from './commands/review.js';
import type { Streams } from './commands/run.js';
import { CliError, Exit, type ExitCode, usageError } from './exit.js';
import { inPlainWords } from './files/trouble.js';
import type { Arguments } from './options/output-options.js';
import { CAUTION, EXIT_CODES } from './output/help.js';
import { oneLine } from './output/line.js';
import { version } from './version.js';

const WIDTH = 100;

/** Runs one command line; every failure ends as one line on standard error and an exit code. */
export async function run(argv: readonly string[], streams: Streams): Promise<ExitCode> {
  let exit: ExitCode = Exit.ok;
  // A closed pipe is reported by the write that meets it; nobody reads what else we would say.
  for (const stream of [streams.stdout, streams.stderr]) stream.on('error', () => undefined);
  const doing =
    (command: (args: Arguments, streams: Streams) => Promise<ExitCode>) => async (args: unknown) => {
      exit = await command(args as Arguments, streams);
    };
  const parser = yargs([...argv])
    .scriptName('handline')
    .locale('en')
    .parserConfiguration({
      'boolean-negation': false,
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-positional-numbers': false,
    })
    .usage(
      'handline COMMAND IN... [options]\n\nMarks piano scores in MusicXML with fingering and motion cues.',
    )
    .command('mark', MARK, buildMark, doing(runMark))
    .command('clear', CLEAR, buildClear, doing(runClear))
    .command('handout', HANDOUT, buildHandout, doing(runHandout))
    .command('review', REVIEW, buildReview, doing(runReview))
    .command('$0', false, {}, ({ _: words }) => {
      const [word] = words;
      throw usageError(
        word === undefined
          ? 'no command given; use mark, clear, handout or review'
          : `"${word}" is not a command; use mark, clear, handout or review`,
      );
    })
    .strictOptions()
    .version(version)
    .alias('help', 'h')
    .epilogue(`${EXIT_CODES}\n\n${CAUTION}`)
    .wrap(WIDTH)
    .exitProcess(false)
    .fail((message, error) => {
      // yargs speaks through the message; an error of ours comes without one.
      throw message ? usageError(message) : error;
    });
  try {
    await parser.parseAsync();
  } catch (error) {
    exit = error instanceof CliError ? error.exit : Exit.defect;
    const help = exit === Exit.usage ? ' (handline --help explains)' : '';
    const message =
      error instanceof CliError ? error.message : `failed (${inPlainWords(error)}); please report it`;
    streams.stderr.write(`handline: ${oneLine(message)}${help}\n`);
  }
  return exit;
}
