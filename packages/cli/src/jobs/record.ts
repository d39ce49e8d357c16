import { createHash, randomBytes } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, mkdir, open, readdir, readFile, rm, rmdir, stat } from 'node:fs/promises';
import { dirname, join, relative, resolve } from 'node:path';
import { pipeline } from 'node:stream/promises';
import type { FileState } from '../files/read.js';
import { systemCode } from '../files/trouble.js';

/** The folder of records in a folder of results: one file for every run, so that several runs never write into one. */
const RECORDS = '.handline-done';
/** Times to make the folder again: as many runs would have to end just then. */
const MOST_TRIES = 100;

interface Entry {
  /** The result's path below the folder of results. */
  readonly result: string;
  /** SHA-256 of the result. */
  readonly sha256: string;
  /** Fingerprint of Handline's version, the command and its options. */
  readonly options: string;
  /** Size in bytes and time of the last change, ms, of the score when it was read. */
  readonly size: number;
  readonly modified: number;
}

/**
 * `done`: as these options make it of this score. `ours`: as an earlier run left it, but of another score or options.
 * `changed`: an earlier run wrote it, and somebody has changed it since.
 */
export type Standing = 'done' | 'ours' | 'changed' | 'unknown';

/** What has become of earlier runs into a folder of results, and a line for every result of this one. */
export class DoneRecord {
  readonly #folder: string;
  readonly #options: string;
  readonly #file: string;
  #earlier: Map<string, Entry[]> | undefined;
  #handle: Promise<FileHandle> | undefined;

  constructor(folder: string, options: unknown) {
    this.#folder = resolve(folder);
    this.#options = createHash('sha256').update(JSON.stringify(options)).digest('hex');
    this.#file = join(this.#folder, RECORDS, `${randomBytes(9).toString('hex')}.jsonl`);
  }

  async standing(result: string, input: string): Promise<Standing> {
    this.#earlier ??= await readRecords(join(this.#folder, RECORDS));
    const entries = this.#earlier.get(relative(this.#folder, resolve(result)));
    if (entries === undefined) return 'unknown';
    const sha256 = await digest(result);
    if (sha256 === undefined) return 'unknown';
    const own = entries.filter((entry) => entry.sha256 === sha256);
    if (own.length === 0) return 'changed';
    const { size, mtimeMs } = await stat(input);
    const current = own.some(
      (entry) => entry.options === this.#options && entry.size === size && entry.modified === mtimeMs,
    );
    return current ? 'done' : 'ours';
  }

  /**
   * Notes a result just before it is written. A run that ends between the two leaves a line that fits no file, and the
   * score is done again; noted afterwards, a result might stand there that no line tells of.
   */
  async note(result: string, bytes: Uint8Array, { size, modified }: FileState): Promise<void> {
    const entry: Entry = {
      result: relative(this.#folder, resolve(result)),
      sha256: createHash('sha256').update(bytes).digest('hex'),
      options: this.#options,
      size,
      modified,
    };
    this.#handle ??= opened(this.#file);
    await (await this.#handle).appendFile(`${JSON.stringify(entry)}\n`);
  }

  /** Ends the record; it is not kept where nothing is left that could be taken up again. */
  async end(keep: boolean): Promise<void> {
    if (this.#handle === undefined) return;
    await (await this.#handle).close();
    if (keep) return;
    await rm(this.#file, { force: true });
    // Records of other runs stay, and with them the folder.
    await rmdir(dirname(this.#file)).catch(() => undefined);
  }
}

async function opened(file: string): Promise<FileHandle> {
  for (let left = MOST_TRIES; ; left--) {
    try {
      await mkdir(dirname(file), { recursive: true });
      return await open(file, 'a');
    } catch (error) {
      // Another run that ends may take the empty folder away meanwhile.
      if (left === 0 || systemCode(error) !== 'ENOENT') throw error;
    }
  }
}

async function readRecords(folder: string): Promise<Map<string, Entry[]>> {
  const entries = new Map<string, Entry[]>();
  for (const name of await namesIn(folder)) {
    for (const line of (await readFile(join(folder, name), 'utf8')).split('\n')) {
      const entry = parsed(line);
      if (entry === undefined) continue;
      const earlier = entries.get(entry.result);
      if (earlier === undefined) entries.set(entry.result, [entry]);
      else earlier.push(entry);
    }
  }
  return entries;
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith('.jsonl'));
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return [];
    throw error;
  }
}

/** A line may be cut off where a run was ended by loss of power. */
function parsed(line: string): Entry | undefined {
  try {
    const entry = JSON.parse(line) as Entry;
    return typeof entry?.result === 'string' ? entry : undefined;
  } catch {
    return undefined;
  }
}

/** Undefined where there is no such file. */
async function digest(path: string): Promise<string | undefined> {
  const hash = createHash('sha256');
  try {
    await pipeline(createReadStream(path), hash);
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return undefined;
    throw error;
  }
  return hash.digest('hex');
}
