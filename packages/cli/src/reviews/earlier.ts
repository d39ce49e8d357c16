import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import type { ReviewOptions } from '@handline/core';
import type { FileState } from '../files/read.js';
import { systemCode } from '../files/trouble.js';
import { VERSION } from '../files/version.js';
import type { ReviewRow } from './pages.js';

/** What a line of the report says of the score that it is about, beside its review. */
interface ReviewedState extends Pick<FileState, 'size' | 'modified'> {
  /** Fingerprint of Handline's version and the options. */
  readonly options: string;
}

export function optionsPrint({ against, ...options }: ReviewOptions): string {
  const hash = createHash('sha256').update(JSON.stringify([VERSION, options]));
  if (against !== undefined) hash.update(against instanceof ArrayBuffer ? new Uint8Array(against) : against);
  return hash.digest('hex');
}

/** Reviews that earlier runs have written to a file of lines: of each the row of the table, and of which state of the score. */
export class EarlierReviews {
  readonly #found = new Map<string, { readonly state: ReviewedState; readonly row: ReviewRow }>();

  /** Empty where there is no such file. */
  static async read(file: string): Promise<EarlierReviews> {
    const earlier = new EarlierReviews();
    try {
      // Line by line: a file of reviews is long.
      const lines = createInterface({ input: createReadStream(file), crlfDelay: Number.POSITIVE_INFINITY });
      for await (const line of lines) earlier.#add(line);
    } catch (error) {
      if (systemCode(error) !== 'ENOENT') throw error;
    }
    return earlier;
  }

  /** The row of a score that was reviewed with these options as it is now. */
  async rowOf(input: string, options: string): Promise<ReviewRow | undefined> {
    const own = this.#found.get(input);
    if (own?.state.options !== options) return undefined;
    try {
      const { size, mtimeMs } = await stat(input);
      return size === own.state.size && mtimeMs === own.state.modified ? own.row : undefined;
    } catch {
      return undefined;
    }
  }

  /** A line may be cut off where a run was ended. The last one of a score counts. */
  #add(line: string): void {
    try {
      const { input, state, review } = JSON.parse(line);
      if (typeof input !== 'string' || !review || !state) return;
      const { digits, levels, mm } = review;
      this.#found.set(input, { state, row: { digits, levels, mm } });
    } catch {
      // Cut off.
    }
  }
}
