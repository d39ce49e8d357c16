import type { Readable } from 'node:stream';
import {
  type AnnotateOptions,
  annotate,
  type ClearOptions,
  clear,
  type ReviewOptions,
  review,
} from '@handline/core';
import { type Job, shown } from '../files/jobs.js';
import { refuseMislabelled } from '../files/kinds.js';
import { type FileState, readSource } from '../files/read.js';
import type { Findings, Result } from '../outcome.js';
import { type Failure, failed } from './failed.js';

/** What is to be done with the bytes of a score. As plain data it can be handed to a worker. */
export type Work =
  | { readonly name: 'mark'; readonly options: AnnotateOptions }
  | { readonly name: 'clear'; readonly options: ClearOptions }
  /** The score itself stays as it is. */
  | { readonly name: 'review'; readonly options: ReviewOptions }
  | ((bytes: Uint8Array, file: string) => Result)
  | Making;

/** A result that is made from nothing. */
interface Making {
  readonly name: 'make';
  readonly make: () => Result;
}

function isMaking(work: Work): work is Making {
  return typeof work === 'object' && work.name === 'make';
}

export interface Order {
  readonly work: Work;
  readonly mostBytes: number;
}

/** A job up to where its result is to be written. */
export type Performed =
  | {
      readonly output: Uint8Array;
      /** Whether the result differs from the input. */
      readonly changed: boolean;
      readonly state?: FileState;
      readonly findings: Findings;
    }
  | { readonly failure: Failure };

/** Reads a score and works on it; a failure comes back as a value. */
export async function perform(job: Job, order: Order, stdin: Readable): Promise<Performed> {
  const file = shown(job.input, 'input');
  const { destination } = job;
  try {
    const named = destination.kind === 'file' && !destination.makeFolder ? destination.path : undefined;
    if (isMaking(order.work)) return made(order.work.make(), named);
    const { bytes, state } = await readSource(job.input, stdin, order.mostBytes);
    const { output, ...findings } = worked(order.work, bytes, file);
    if (named !== undefined) refuseMislabelled(named, output);
    return {
      output,
      changed: Buffer.compare(bytes, output) !== 0,
      ...(state === undefined ? {} : { state }),
      findings,
    };
  } catch (error) {
    return { failure: failed(error, isMaking(order.work) ? undefined : file, destination) };
  }
}

function made({ output, ...findings }: Result, named: string | undefined): Performed {
  if (named !== undefined) refuseMislabelled(named, output);
  return { output, changed: true, findings };
}

function worked(work: Exclude<Work, Making>, bytes: Uint8Array, file: string): Result {
  if (typeof work === 'function') return work(bytes, file);
  if (work.name === 'review') {
    const own = review(bytes, { ...work.options, file });
    return { output: bytes, review: own, warnings: own.warnings };
  }
  if (work.name === 'clear') return clear(bytes, { ...work.options, file });
  const { output, report } = annotate(bytes, { ...work.options, file });
  return { output, report, warnings: report.warnings };
}
