import { type FileHandle, open } from 'node:fs/promises';
import type { Writable } from 'node:stream';
import { CliError, Exit, usageError } from '../exit.js';
import { inPlainWords, systemCode } from '../files/trouble.js';
import { ClosedPipe, send } from '../jobs/streams.js';
import type { ReportChoice } from '../options/output-options.js';
import type { Outcome } from '../outcome.js';
import { JsonReport, jsonEntry } from './json.js';

/** The file of `--report`. */
interface Lines {
  readonly file: string;
  readonly handle: FileHandle;
}

/** Where what became of the files is told, entry by entry, as soon as it is known. */
export class Reports {
  readonly #stream: Writable;
  readonly #json: JsonReport | undefined;
  readonly #lines: Lines | undefined;
  /** The lines so far: one is written after the other, or long ones would be mixed. */
  #written: Promise<void> = Promise.resolve();
  /** Nobody reads on; what becomes of the files is the same. */
  #unread = false;

  private constructor(stream: Writable, json: JsonReport | undefined, lines: Lines | undefined) {
    this.#stream = stream;
    this.#json = json;
    this.#lines = lines;
  }

  /**
   * @param goesOn whether lines are added to a file that is there
   * @throws CliError usage, where the file for `--report` cannot be made
   */
  static async open(choice: ReportChoice, stream: Writable, goesOn = false): Promise<Reports> {
    const file = choice.report;
    const lines = file === undefined ? undefined : { file, handle: await opened(file, goesOn) };
    return new Reports(stream, choice.json ? await jsonReport() : undefined, lines);
  }

  /**
   * The file of lines has nothing on a score that an earlier run had done: a line for every score, however many runs it took.
   *
   * @param more what only the line tells
   * @throws CliError unwritten, where the line cannot be written
   */
  async add(place: number, outcome: Outcome, more: object = {}): Promise<void> {
    if (outcome.status !== 'done') await this.#line({ ...jsonEntry(outcome), ...more });
    await this.#send(this.#json?.add(place, outcome) ?? '');
  }

  #line(entry: object): Promise<void> {
    const lines = this.#lines;
    if (lines === undefined) return this.#written;
    this.#written = this.#written.then(() => appended(lines, `${JSON.stringify(entry)}\n`));
    return this.#written;
  }

  async end(summary: string): Promise<void> {
    await this.#lines?.handle.close();
    await this.#send((this.#json?.end() ?? '') + summary);
  }

  async #send(text: string): Promise<void> {
    if (text === '' || this.#unread) return;
    try {
      await send(this.#stream, text);
    } catch (error) {
      if (!(error instanceof ClosedPipe)) throw error;
      this.#unread = true;
    }
  }
}

async function appended({ file, handle }: Lines, line: string): Promise<void> {
  try {
    await handle.appendFile(line);
  } catch (error) {
    throw new CliError(
      Exit.unwritten,
      `--report ${file}: ${inPlainWords(error)}; this run ends here, and its last scores are not in the report`,
    );
  }
}

/** Core is loaded where its version is asked for, and not for help. */
async function jsonReport(): Promise<JsonReport> {
  const { REPORT_VERSION } = await import('@handline/core');
  return new JsonReport(REPORT_VERSION);
}

/** Never over a file that is there, which might be a score. */
async function opened(file: string, goesOn: boolean): Promise<FileHandle> {
  try {
    if (!goesOn) return await open(file, 'wx');
    const handle = await open(file, 'a+');
    await endLine(handle);
    return handle;
  } catch (error) {
    const taken = systemCode(error) === 'EEXIST';
    throw usageError(
      `--report ${file}: ${taken ? 'is already there; choose another name' : inPlainWords(error)}`,
    );
  }
}

/** A line that was cut off where a run was ended stays by itself. */
async function endLine(handle: FileHandle): Promise<void> {
  const { size } = await handle.stat();
  if (size === 0) return;
  const { buffer } = await handle.read({ buffer: Buffer.alloc(1), position: size - 1 });
  if (buffer.toString() !== '\n') await handle.appendFile('\n');
}
