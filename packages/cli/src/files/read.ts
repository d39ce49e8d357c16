import { open, realpath, stat } from 'node:fs/promises';
import type { Readable } from 'node:stream';
import { CliError, Exit } from '../exit.js';
import { inPlainWords } from './trouble.js';

/** What was read, and from which state of which file, so that a later change is noticed. */
export interface Source {
  readonly bytes: Uint8Array;
  readonly state?: FileState;
}

export interface FileState {
  readonly device: number;
  readonly inode: number;
  readonly size: number;
  readonly modified: number;
}

/** Reads a whole file, or standard input for `-`; refuses folders and anything beyond `mostBytes`. */
export async function readSource(input: string, stdin: Readable, mostBytes: number): Promise<Source> {
  try {
    if (input === '-') return { bytes: await collect(stdin, mostBytes) };
    const handle = await open(input, 'r');
    try {
      const found = await handle.stat();
      if (found.isDirectory()) throw new CliError(Exit.refused, 'is a folder; name the score files in it');
      const bytes = await collect(handle.createReadStream({ autoClose: false }), mostBytes);
      return {
        bytes,
        state: { device: found.dev, inode: found.ino, size: found.size, modified: found.mtimeMs },
      };
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (error instanceof CliError) throw error;
    throw new CliError(Exit.refused, inPlainWords(error), { cause: error });
  }
}

async function collect(stream: Readable, mostBytes: number): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const piece = Buffer.from(chunk as Uint8Array);
    size += piece.length;
    if (size > mostBytes) {
      throw new CliError(
        Exit.refused,
        `is larger than ${mostBytes} bytes; raise --max-bytes if you trust it`,
      );
    }
    chunks.push(piece);
  }
  return Buffer.concat(chunks);
}

/** True where `path` still is the file that was read, unchanged since. */
export async function isUnchanged(path: string, state: FileState): Promise<boolean> {
  const found = await stat(await realpath(path));
  return (
    found.dev === state.device &&
    found.ino === state.inode &&
    found.size === state.size &&
    found.mtimeMs === state.modified
  );
}
