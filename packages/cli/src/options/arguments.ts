import { usageError } from '../exit.js';

/** What yargs hands over: values by option name as typed. */
export type Arguments = Readonly<Record<string, unknown>> & { readonly _: readonly (string | number)[] };

/** The text of an option that may be given once. */
export function text(args: Arguments, name: string): string | undefined {
  const value = args[name];
  if (value === undefined) return undefined;
  if (Array.isArray(value)) throw usageError(`--${name} is given more than once; give it once`);
  if (value === '') throw usageError(`--${name} is empty; give it a value or leave it out`);
  return String(value);
}

export function flag(args: Arguments, name: string): boolean {
  const value = args[name];
  if (Array.isArray(value)) throw usageError(`--${name} is given more than once; give it once`);
  return value === true;
}

/** An option's text as `parse` reads it; undefined where it is left out. */
export function parsed<T>(args: Arguments, name: string, parse: (typed: string) => T): T | undefined {
  const typed = text(args, name);
  return typed === undefined ? undefined : parse(typed);
}

/** The text of an option whose values yargs or core looks at. */
export function chosen<T extends string>(args: Arguments, name: string): T | undefined {
  return parsed(args, name, (typed) => typed as T);
}

/** An option with a value, as yargs is told of it. */
export function valued(group: string, describe: string) {
  return { group, type: 'string', requiresArg: true, describe } as const;
}

type Defined<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

/** The object without the entries that are undefined: an option left out is not an option set to nothing. */
export function defined<T extends object>(values: T): Defined<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Defined<T>;
}
