import { realpath } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import type { Readable } from 'node:stream';
import { usageError } from '../exit.js';
import type { OutputChoice } from '../options/output-options.js';
import { expandInputs, type Input, type Inputs, mirrored } from './inputs.js';
import { refuseName } from './kinds.js';

export type Destination =
  | { readonly kind: 'stdout' }
  | { readonly kind: 'file'; readonly path: string; readonly force: boolean; readonly makeFolder: boolean }
  | { readonly kind: 'in-place'; readonly path: string }
  /** Nothing is written: is the result what stands under this name already? */
  | { readonly kind: 'compare'; readonly path: string };

/** One input and where its result goes. */
export interface Job {
  /** Its path; `-` is standard input. */
  readonly input: string;
  readonly destination: Destination;
}

/** Name of an input or output in messages. */
export function shown(path: string, stream: 'input' | 'output'): string {
  return path === '-' ? `standard ${stream}` : path;
}

/**
 * Finds the inputs and pairs each with its destination before any score is read; refuses what could harm a file: two
 * results under one name, a result over an input, the same file named twice. A file that a folder, a pattern or a list
 * gives once more is one job.
 *
 * @param several what is wrong with several scores where they have no folder to go to
 */
export async function planJobs(
  names: readonly string[],
  choice: OutputChoice,
  toScreen: boolean,
  stdin: Readable = process.stdin,
  refuse: (output: string) => void = refuseName,
  several = 'several scores need --out-dir DIR or --in-place',
): Promise<Job[]> {
  if (choice.output !== undefined) refuse(choice.output);
  const inputs = await expandInputs(names, stdin, choice.outDir);
  const sources = await eachOnce(inputs);
  const jobs = [...sources.values()].map(({ path }) => ({
    input: path,
    destination: destinationOf(path, inputs, choice, toScreen, several),
  }));
  await refuseClashes(jobs, sources);
  return jobs;
}

/** The inputs by the file that they are; one that a folder, a pattern or a list gives once more counts once. */
export async function eachOnce({ list }: Pick<Inputs, 'list'>): Promise<ReadonlyMap<string, Input>> {
  const sources = new Map<string, Input>();
  for (const input of list) {
    const name = input.path === '-' ? '-' : await identity(input.path);
    const earlier = sources.get(name);
    if (earlier === undefined) sources.set(name, input);
    else if (earlier.named && input.named) {
      throw usageError(
        earlier.path === input.path
          ? `${shown(input.path, 'input')} is given more than once; give it once`
          : `${earlier.path} and ${input.path} are the same file; give it once`,
      );
    }
  }
  return sources;
}

/**
 * The job of a result that is made from nothing.
 *
 * @param name stands for the input in messages
 */
export function planMade(
  name: string,
  choice: OutputChoice,
  toScreen: boolean,
  refuse: (output: string) => void = refuseName,
): Job {
  if (choice.output !== undefined) refuse(choice.output);
  const alone: Inputs = { list: [], shared: '', many: false };
  return { input: name, destination: destinationOf(name, alone, choice, toScreen, '') };
}

/** Where the result of an input goes. */
function destinationOf(
  input: string,
  inputs: Inputs,
  choice: OutputChoice,
  toScreen: boolean,
  several: string,
): Destination {
  const { output, outDir, inPlace, check, root, force } = choice;
  if (input === '-' && inPlace)
    throw usageError('standard input cannot be changed in place; give -o OUT instead');
  if (input === '-' && outDir !== undefined) {
    throw usageError('standard input has no name for --out-dir; give -o OUT instead');
  }
  if (outDir !== undefined) {
    const path = mirrored(input, root ?? inputs.shared, outDir);
    return check ? { kind: 'compare', path } : { kind: 'file', path, force, makeFolder: true };
  }
  if (root !== undefined) throw usageError('--root is for --out-dir; give both');
  if (check && (output === undefined || output === '-')) {
    if (input === '-' || output === '-') throw usageError('--check has no file to compare with; give -o OUT');
    return { kind: 'compare', path: input };
  }
  if (inPlace) return { kind: 'in-place', path: input };
  if (inputs.many) throw usageError(several);
  if (output !== undefined && output !== '-') {
    return check
      ? { kind: 'compare', path: output }
      : { kind: 'file', path: output, force, makeFolder: false };
  }
  if (output === undefined && toScreen) {
    throw usageError(
      'say where the result goes: -o OUT, --out-dir DIR or --in-place (-o - prints it on the screen)',
    );
  }
  return { kind: 'stdout' };
}

async function refuseClashes(jobs: readonly Job[], sources: ReadonlyMap<string, Input>): Promise<void> {
  const results = new Map<string, string>();
  for (const { input, destination } of jobs) {
    if (destination.kind !== 'file') continue;
    const name = await identity(destination.path);
    const source = sources.get(name);
    if (source !== undefined) {
      throw usageError(
        `the result ${destination.path} would overwrite the input ${source.path}; use --in-place for that`,
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
