import type { Limits } from '@handline/core';
import type { Argv } from 'yargs';
import { type Arguments, defined, parsed, valued } from './arguments.js';
import { parseCount } from './values.js';

const GROUP = 'Limits against damaged or hostile files:';
/** Core's default of `maxBytes`: no more of a file is read either, so that memory is bounded before core sees it. */
const MOST_BYTES = 128 * 1024 * 1024;

export function addLimitOptions(parser: Argv): Argv {
  const limit = (describe: string) => valued(GROUP, describe);
  return parser
    .option('max-bytes', limit(`Largest score, in bytes, unpacked [${MOST_BYTES}]`))
    .option('max-depth', limit('Deepest nesting of XML elements [128]'))
    .option('max-notes', limit('Most notes in one score [1000000]'))
    .option('max-ratio', limit('Largest ratio of unpacked to packed size in a .mxl archive [250]'));
}

/** The limits that the command line sets; what is left out is core's default. */
export function limitsOf(args: Arguments): Partial<Limits> {
  const count = (name: string) => parsed(args, name, (typed) => parseCount(name, typed, 1));
  return defined({
    maxBytes: count('max-bytes'),
    maxDepth: count('max-depth'),
    maxNotes: count('max-notes'),
    maxRatio: count('max-ratio'),
  });
}

/** Bytes that are read from one input. */
export function mostBytes({ maxBytes = MOST_BYTES }: Partial<Limits>): number {
  return maxBytes;
}
