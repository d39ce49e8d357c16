import { realpath } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { usageError } from '../exit.js';
import type { OutputChoice } from '../options/output-options.js';

export type Destination =
  | { readonly kind: 'stdout' }
  | { readonly kind: 'file'; readonly path: string; readonly force: boolean; readonly makeFolder: boolean }
  | { readonly kind: 'in-place'; readonly path: string };

/** One input and where its result goes. */
export interface Job {
  /** As typed; `-` is standard input. */
  readonly input: string;
  readonly destination: Destination;
}

/** Name of an input or output in messages. */
export function shown(path: string, stream: 'input' | 'output'): string {
  return path === '-' ? `standard ${stream}` : path;
}

/**
 * Pairs every input with its destination before anything is read, and refuses what could harm a file: two results
 * under one name, the same file twice, a result over an input.
 */
export async function planJobs(
  inputs: readonly string[],
  choice: OutputChoice,
  toScreen: boolean,
): Promise<Job[]> {
  const jobs = inputs.map((input) => ({
    input,
    destination: destinationOf(input, inputs.length, choice, toScreen),
  }));
  const sources = new Map<string, string>();
  for (const { input } of jobs) {
    const name = input === '-' ? '-' : await identity(input);
    const earlier = sources.get(name);
    if (earlier !== undefined) {
      throw usageError(
        earlier === input
          ? `${shown(input, 'input')} is given more than once; give it once`
          : `${earlier} and ${input} are the same file; give it once`,
      );
    }
    sources.set(name, input);
  }
  await refuseClashes(jobs, sources);
  return jobs;
}

/** Where the result of one of so many inputs goes. */
export function destinationOf(
  input: string,
  count: number,
  choice: OutputChoice,
  toScreen: boolean,
): Destination {
  const { output, outDir, inPlace, force } = choice;
  if (input === '-' && inPlace)
    throw usageError('standard input cannot be changed in place; give -o OUT instead');
  if (input === '-' && outDir !== undefined) {
    throw usageError('standard input has no name for --out-dir; give -o OUT instead');
  }
  if (inPlace) return { kind: 'in-place', path: input };
  if (outDir !== undefined)
    return { kind: 'file', path: join(outDir, basename(input)), force, makeFolder: true };
  if (count > 1) throw usageError('several scores need --out-dir DIR or --in-place');
  if (output === '-') return { kind: 'stdout' };
  if (output !== undefined) return { kind: 'file', path: output, force, makeFolder: false };
  if (toScreen) {
    throw usageError(
      'say where the result goes: -o OUT, --out-dir DIR or --in-place (-o - prints it on the screen)',
    );
  }
  return { kind: 'stdout' };
}

async function refuseClashes(jobs: readonly Job[], sources: ReadonlyMap<string, string>): Promise<void> {
  const results = new Map<string, string>();
  for (const { input, destination } of jobs) {
    if (destination.kind !== 'file') continue;
    const name = await identity(destination.path);
    const source = sources.get(name);
    if (source !== undefined) {
      throw usageError(
        `the result ${destination.path} would overwrite the input ${source}; use --in-place for that`,
      );
    }
    const earlier = results.get(name);
    if (earlier !== undefined) {
      throw usageError(
        `the results of ${earlier} and ${input} would both be ${destination.path}; use another folder for one of them`,
      );
    }
    results.set(name, input);
  }
}

/** One name per file: symbolic links resolved, also in the folder of a file that is not there yet. */
async function identity(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch {
    const absolute = resolve(path);
    const folder = dirname(absolute);
    return folder === absolute ? absolute : join(await identity(folder), basename(absolute));
  }
}
