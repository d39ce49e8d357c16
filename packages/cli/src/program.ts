import yargs, { type Argv } from 'yargs';
import { COMMANDS, commandList, isCommand } from './commands/commands.js';
import { CliError, Exit, type ExitCode, usageError } from './exit.js';
import { inPlainWords } from './files/trouble.js';
import type { Streams } from './jobs/streams.js';
import type { Arguments } from './options/output-options.js';
import { CAUTION, EXIT_CODES } from './output/help.js';
import { oneLine } from './output/line.js';
import { suggestion } from './suggestion.js';
import { VERSION } from './version.js';

/** Columns of the help: those of the terminal, within these bounds, or this many where there is none. */
const WIDTH = 100;
const NARROWEST = 40;
const WIDEST = 120;

/** Runs one command line; every failure ends as one line on standard error and an exit code. */
export async function run(argv: readonly string[], streams: Streams): Promise<ExitCode> {
  let exit: ExitCode = Exit.ok;
  // A closed pipe is met by the write; nobody reads what else we would say.
  for (const stream of [streams.stdout, streams.stderr]) stream.on('error', () => undefined);
  const parser = yargs(asOption(argv))
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
    );
  for (const { name, summary, load } of COMMANDS) {
    parser.command(
      name,
      summary,
      async (command) => withoutSpareHelp((await load()).build(command)),
      async (args) => {
        exit = await (await load()).run(args as Arguments, streams);
      },
    );
  }
  parser
    .command('$0', false, {}, ({ _: words }) => {
      const [word, ...others] = words[0] === 'help' ? words.slice(1) : words.slice(0, 1);
      if (others.length > 0) throw usageError('help takes one command; write such as handline help mark');
      throw usageError(
        word === undefined
          ? `no command given; use ${commandList()}`
          : `"${word}" is not a command; use ${commandList()}`,
      );
    })
    .strictOptions()
    .version(VERSION)
    .alias('version', 'V')
    .alias('help', 'h')
    .example('handline mark waltz.musicxml -o marked.musicxml', 'mark a score')
    .epilogue(`handline help COMMAND lists the options of a command.\n\n${EXIT_CODES}\n\n${CAUTION}`)
    .wrap(Math.min(WIDEST, Math.max(NARROWEST, streams.stdout.columns ?? WIDTH)))
    .exitProcess(false)
    .fail((message, error) => {
      // yargs speaks through the message; an error of ours comes without one.
      throw message ? usageError(message) : error;
    });
  try {
    await parser.parseAsync();
  } catch (thrown) {
    // So yargs throws what it finds while a command is being loaded.
    const error = thrown instanceof Error && thrown.name === 'YError' ? usageError(thrown.message) : thrown;
    exit = error instanceof CliError ? error.exit : Exit.defect;
    streams.stderr.write(`handline: ${oneLine(await told(error, argv[0]))}\n`);
  }
  return exit;
}

/**
 * yargs writes out the help of every command that it runs, for messages that we word otherwise: a tenth of the time of
 * marking a short score.
 */
function withoutSpareHelp(parser: Argv): Argv {
  const usage = (parser as Argv & Partial<Internals>).getInternalMethods?.().getUsageInstance();
  if (usage) usage.cacheHelpMessage = () => undefined;
  return parser;
}

/** What yargs's types leave out. */
interface Internals {
  readonly getInternalMethods: () => { readonly getUsageInstance: () => { cacheHelpMessage: () => void } };
}

/** `handline help mark` is `handline mark --help`. */
function asOption(argv: readonly string[]): string[] {
  const [first, second, ...rest] = argv;
  if (first !== 'help' || rest.length > 0 || (second !== undefined && !isCommand(second))) return [...argv];
  return second === undefined ? ['--help'] : [second, '--help'];
}

async function told(error: unknown, command: string | undefined): Promise<string> {
  if (!(error instanceof CliError)) return `failed (${inPlainWords(error)}); please report it`;
  if (error.exit !== Exit.usage) return error.message;
  return `${error.message}${await suggestion(error.message, command)} (handline --help explains)`;
}
