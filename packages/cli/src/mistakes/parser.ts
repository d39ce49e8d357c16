import type { Argv } from 'yargs';

/** What yargs's types leave out of a parser. */
interface Internals {
  readonly getOptions: () => Options;
  readonly getInternalMethods: () => { readonly getUsageInstance: () => Usage };
}

interface Usage {
  cacheHelpMessage: () => void;
  readonly getDescriptions: () => Readonly<Record<string, string>>;
}

interface Options {
  readonly key: object;
  readonly alias: Readonly<Record<string, readonly string[]>>;
  readonly boolean: readonly string[];
  readonly choices: Readonly<Record<string, readonly string[]>>;
  readonly hiddenOptions: readonly string[];
}

/** The options that a parser knows. */
export function optionsOf(parser: Argv): Options {
  return (parser as Argv & Internals).getOptions();
}

/** What a parser says of itself. */
export function usageOf(parser: Argv): Usage {
  return (parser as Argv & Internals).getInternalMethods().getUsageInstance();
}

/** yargs would take `--force=yes` for `--force=false`, and say nothing. */
export function valueOfFlag(argv: readonly string[], parser: Argv): string | undefined {
  const flags = optionsOf(parser).boolean.filter((name) => name.length > 1);
  const end = argv.indexOf('--');
  const words = end < 0 ? argv : argv.slice(0, end);
  const flag = flags.find((name) => words.some((word) => word.startsWith(`--${name}=`)));
  return flag === undefined ? undefined : `--${flag} takes no value; write --${flag}, or leave it out`;
}
