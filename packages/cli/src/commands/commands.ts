import type { Argv } from 'yargs';
import type { ExitCode } from '../exit.js';
import type { Streams } from '../jobs/streams.js';
import type { Arguments } from '../options/arguments.js';
import { SUMMARIES } from './summaries.js';

export interface Command {
  readonly name: string;
  /** What it does, in a line of the help. */
  readonly summary: string;
  readonly load: () => Promise<{
    readonly build: (parser: Argv) => Argv;
    readonly run: (args: Arguments, streams: Streams) => Promise<ExitCode>;
  }>;
}

/** All commands. Each is loaded when it is called, so that `--help` need not wait for what it does not use. */
export const COMMANDS: readonly Command[] = [
  {
    name: 'mark',
    summary: SUMMARIES.mark,
    load: async () => {
      const { buildMark, runMark } = await import('./mark.js');
      return { build: buildMark, run: runMark };
    },
  },
  {
    name: 'clear',
    summary: SUMMARIES.clear,
    load: async () => {
      const { buildClear, runClear } = await import('./clear.js');
      return { build: buildClear, run: runClear };
    },
  },
  {
    name: 'handout',
    summary: SUMMARIES.handout,
    load: async () => {
      const { buildHandout, runHandout } = await import('./handout.js');
      return { build: buildHandout, run: runHandout };
    },
  },
  {
    name: 'stand',
    summary: SUMMARIES.stand,
    load: async () => {
      const { buildStand, runStand } = await import('./stand.js');
      return { build: buildStand, run: runStand };
    },
  },
  {
    name: 'review',
    summary: SUMMARIES.review,
    load: async () => {
      const { buildReview, runReview } = await import('./review.js');
      return { build: buildReview, run: runReview };
    },
  },
  {
    name: 'drill',
    summary: SUMMARIES.drill,
    load: async () => {
      const { buildDrill, runDrill } = await import('./drill.js');
      return { build: buildDrill, run: runDrill };
    },
  },
  {
    name: 'completion',
    summary: 'Print a script that completes commands and options in bash, zsh or fish',
    load: async () => {
      const { buildCompletion, runCompletion } = await import('./completion.js');
      return { build: buildCompletion, run: runCompletion };
    },
  },
];

export function isCommand(word: string): boolean {
  return COMMANDS.some(({ name }) => name === word);
}

/** The names of the commands that take scores, as `mark, clear or review`. */
export function commandList(): string {
  const names = COMMANDS.map(({ name }) => name).filter((name) => name !== 'completion');
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}
