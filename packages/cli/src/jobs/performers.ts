import { availableParallelism } from 'node:os';
import type { Readable } from 'node:stream';
import { Exit } from '../exit.js';
import { type Job, shown } from '../files/jobs.js';
import { systemCode } from '../files/trouble.js';
import { oneLine } from '../output/line.js';
import type { Order, Performed } from './perform.js';

export interface Performers {
  readonly perform: (job: Job) => Promise<Performed>;
  /** Jobs to hand them at once: one more than there are threads, for while a result is written, its thread is at the next score. */
  readonly atOnce: number;
  readonly end: () => Promise<void>;
}

/** Scores for each thread that make it worth starting: it takes as long as marking a few short ones. */
const WORTH_A_THREAD = 4;

/**
 * Memory for new objects in a worker thread. With V8's own 48 MB the peak over 232 scores is about 60 MB higher, and the
 * CPU time no lower.
 */
const YOUNG_MB = 16;

/** Threads for so many scores, where nobody has said how many. */
function usualThreads(scores: number): number {
  return Math.min(availableParallelism(), Math.floor(scores / WORTH_A_THREAD));
}

/**
 * Those who do the jobs: worker threads, or this thread itself where one is enough.
 *
 * @param scores that wait
 * @param asked threads, where somebody has said how many
 */
export async function performers(
  order: Order,
  scores: number,
  asked: number | undefined,
  stdin: Readable,
): Promise<Performers> {
  const threads = Math.max(1, Math.min(asked ?? usualThreads(scores), scores));
  if (threads === 1) {
    const { perform } = await import('./perform.js');
    return { perform: (job) => perform(job, order, stdin), atOnce: 1, end: async () => undefined };
  }
  const { Tinypool } = await import('tinypool');
  const pool = new Tinypool({
    filename: new URL('./worker.js', import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
  });
  return {
    atOnce: threads + 1,
    perform: (job) => pool.run({ job, order }).catch((error: unknown) => broken(error, job)),
    end: () => pool.destroy(),
  };
}

/** A thread that ended: memory is all that a score can take from it; the pool has started another one. */
function broken(error: unknown, { input }: Job): Performed {
  if (systemCode(error) !== 'ERR_WORKER_OUT_OF_MEMORY') throw error;
  const message = `${shown(input, 'input')}: takes more memory than there is; give Node.js more of it, as with NODE_OPTIONS=--max-old-space-size=8000`;
  return { failure: { status: 'refused', exit: Exit.refused, error: { message: oneLine(message) } } };
}
