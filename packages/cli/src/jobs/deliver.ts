import { readFile } from 'node:fs/promises';
import type { Job } from '../files/jobs.js';
import type { FileState } from '../files/read.js';
import { systemCode } from '../files/trouble.js';
import { replaceInPlace, writeResult } from '../files/write.js';
import type { Outcome } from '../outcome.js';
import { type Streams, send } from './streams.js';

/** Brings a result to its destination. */
export async function deliver(
  { destination }: Job,
  source: { readonly state?: FileState },
  result: { readonly changed: boolean; readonly output: Uint8Array },
  streams: Streams,
): Promise<Pick<Outcome, 'output' | 'backup' | 'status' | 'compared'>> {
  switch (destination.kind) {
    case 'stdout':
      await send(streams.stdout, result.output);
      return { output: '-', status: 'written' };
    case 'file':
      await writeResult(destination.path, result.output, destination);
      return { output: destination.path, status: 'written' };
    case 'compare': {
      const compared = await comparedWith(destination.path, result.output);
      return { output: destination.path, status: compared === 'same' ? 'unchanged' : 'differs', compared };
    }
    case 'in-place': {
      const { path } = destination;
      if (source.state === undefined || !result.changed) {
        return { output: path, status: 'unchanged' };
      }
      const backup = await replaceInPlace(path, result.output, source.state);
      return { output: path, backup, status: 'written' };
    }
  }
}

async function comparedWith(path: string, bytes: Uint8Array): Promise<NonNullable<Outcome['compared']>> {
  try {
    return Buffer.compare(await readFile(path), bytes) === 0 ? 'same' : 'other';
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return 'missing';
    throw error;
  }
}
