import { CliError, Exit } from '../exit.js';
import { type Job, shown } from '../files/jobs.js';
import { checkTarget } from '../files/write.js';
import type { Failure } from './failed.js';
import type { DoneRecord } from './record.js';

/** A job before any work is done for it: to be done, done by an earlier run, or without a place for its result. */
export interface Surveyed {
  readonly job: Job;
  readonly done: boolean;
  readonly failure?: Failure;
}

/** Looks at the destinations of all jobs; with `skipping`, at what earlier runs have done of them. */
export async function survey(jobs: readonly Job[], skipping: DoneRecord | undefined): Promise<Surveyed[]> {
  const surveyed: Surveyed[] = [];
  for (const job of jobs) surveyed.push(await surveyOne(job, skipping));
  return surveyed;
}

async function surveyOne(job: Job, skipping: DoneRecord | undefined): Promise<Surveyed> {
  try {
    const own = await known(job, skipping);
    if (own === undefined) return { job, done: true };
    await checkTarget(own.destination);
    return { job: own, done: false };
  } catch (error) {
    const { failed } = await import('./failed.js');
    return { job, done: false, failure: failed(error, shown(job.input, 'input'), job.destination) };
  }
}

/** The job; with leave to replace a result that is out of date and as Handline left it; undefined where it is done. */
async function known(job: Job, skipping: DoneRecord | undefined): Promise<Job | undefined> {
  const { input, destination } = job;
  if (skipping === undefined || destination.kind !== 'file') return job;
  const standing = await skipping.standing(destination.path, input);
  if (standing === 'done') return undefined;
  if (standing === 'changed' && !destination.force) {
    throw new CliError(Exit.unwritten, 'was changed since Handline wrote it and is left alone');
  }
  return standing === 'ours' ? { input, destination: { ...destination, force: true } } : job;
}
