import { Readable } from 'node:stream';
import Tinypool, { type Transferable } from 'tinypool';
import type { Job } from '../files/jobs.js';
import { type Order, type Performed, perform } from './perform.js';

/** One job in a worker thread. The bytes of the result are handed over, not copied. */
export default async function work({ job, order }: { job: Job; order: Order }): Promise<unknown> {
  const performed = await perform(job, order, Readable.from([]));
  return 'failure' in performed ? performed : handedOver(performed);
}

function handedOver(performed: Extract<Performed, { readonly output: Uint8Array }>): unknown {
  const { output } = performed;
  // A view into a larger buffer, such as Node's pool of small ones, cannot be handed over.
  const own = output.byteLength === output.buffer.byteLength ? output : Uint8Array.from(output);
  const movable = {
    [Tinypool.transferableSymbol]: [own.buffer],
    [Tinypool.valueSymbol]: { ...performed, output: own },
  };
  // Its symbols are typed as any symbol.
  return Tinypool.move(movable as unknown as Transferable);
}
