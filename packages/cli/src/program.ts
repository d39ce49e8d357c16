import yargs, { type Argv } from 'yargs';
import { COMMANDS, commandList, isCommand } from './commands/commands.js';
import { CliError, Exit, type ExitCode, usageError } from './exit.js';
import { inPlainWords } from './files/trouble.js';
import { VERSION } from './files/version.js';
import { ClosedPipe, type Streams } from './jobs/streams.js';
import { usageOf, valueOfFlag } from './mistakes/parser.js';
import type { Arguments } from './options/arguments.js';
import { CAUTION, EXIT_CODES } from './output/help.js';
import { oneLine } from './output/line.js';

/** Columns of the help: those of the terminal, within these bounds, or this many where there is none. */
const WIDTH = 100;
const NARROWEST = 40;
const WIDEST = 120;

/** Runs one command line; every failure ends as one line on standard error and an exit code. */
export async function run(argv: readonly string[], streams: Streams): Promise<ExitCode> {
  let exit: ExitCode = Exit.ok;
  // A closed pipe is met by the write; nobody reads what else we would say.
  for (const stream of [streams.stdout, streams.stderr]) stream.on('error', () => undefined);
  if (argv[0] === '--get-yargs-completions') {
    const { completedValues } = await import('./commands/complete.js');
    const values = await completedValues(argv.slice(2)).catch(() => []);
    if (values !== undefined) {
      streams.stdout.write(values.map((value) => `${value}\n`).join(''));
      return exit;
    }
  }
  const parser = yargs(asOption(argv.flatMap(apart)))
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
      async (command) => {
        const built = withoutSpareHelp((await load()).build(command));
        const mistake = valueOfFlag(argv, built);
        if (mistake !== undefined) throw usageError(mistake);
        return built;
      },
      async (args) => {
        exit = await (await load()).run(args as Arguments, streams);
      },
    );
  }
  parser
    .command('$0', false, {}, async ({ _: words }) => {
      const [word, ...others] = words[0] === 'help' ? words.slice(1) : words.slice(0, 1);
      if (others.length > 0) throw usageError('help takes one command; write such as handline help mark');
      if (word === undefined) throw usageError(`no command given; use ${commandList()}`);
      const { noCommand } = await import('./mistakes/command-line.js');
      throw usageError(noCommand(String(word)));
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
      throw message ? Object.assign(new Error(message), { name: 'YError' }) : error;
    });
  try {
    await parser.parseAsync();
  } catch (thrown) {
    if (thrown instanceof ClosedPipe) return Exit.unread;
    // So yargs throws what it finds while a command is being loaded.
    const isYargs = thrown instanceof Error && thrown.name === 'YError';
    const error = isYargs ? usageError(await inOurWords(thrown.message, argv)) : thrown;
    exit = error instanceof CliError ? error.exit : Exit.defect;
    streams.stderr.write(`handline: ${oneLine(told(error, argv.find(isCommand)))}\n`);
  }
  return exit;
}

/**
 * yargs writes out the help of every command that it runs, for messages that we word otherwise: a tenth of the time of
 * marking a short score.
 */
function withoutSpareHelp(parser: Argv): Argv {
  usageOf(parser).cacheHelpMessage = () => undefined;
  return parser;
}

/** `-oFILE` as `-o FILE`, where yargs would read every letter as an option. */
function apart(word: string): readonly string[] {
  const file = /^-o([^=].*)$/s.exec(word)?.[1];
  return file === undefined ? [word] : ['-o', file];
}

/** `handline help mark` is `handline mark --help`. */
function asOption(argv: readonly string[]): string[] {
  const [first, second, ...rest] = argv;
  if (first !== 'help' || rest.length > 0 || (second !== undefined && !isCommand(second))) return [...argv];
  return second === undefined ? ['--help'] : [second, '--help'];
}

async function inOurWords(message: string, argv: readonly string[]): Promise<string> {
  const { plainly } = await import('./mistakes/command-line.js');
  return plainly(message, argv);
}

function told(error: unknown, command: string | undefined): string {
  if (!(error instanceof CliError)) return `failed (${inPlainWords(error)}); please report it`;
  if (error.exit !== Exit.usage) return error.message;
  return `${error.message} (handline ${command === undefined ? '--help' : `help ${command}`} explains)`;
}
