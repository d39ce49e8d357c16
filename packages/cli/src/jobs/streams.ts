import type { Readable, Writable } from 'node:stream';
import { CliError, Exit } from '../exit.js';
import { inPlainWords, systemCode } from '../files/trouble.js';

/** The three streams of the process. */
export interface Streams {
  readonly stdin: Readable;
  readonly stdout: Writable & { readonly isTTY?: boolean; readonly columns?: number };
  readonly stderr: Writable & { readonly isTTY?: boolean };
}

/** Nobody reads on: no error of ours, and nothing to be said about it. */
export class ClosedPipe extends Error {}

export function send(stream: Writable, data: Uint8Array | string): Promise<void> {
  return new Promise((done, fail) => {
    stream.write(data, (error) => {
      if (!error) done();
      else if (systemCode(error) === 'EPIPE') fail(new ClosedPipe());
      else fail(new CliError(Exit.unwritten, inPlainWords(error), { cause: error }));
    });
  });
}
