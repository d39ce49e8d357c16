import type { Limits } from '../../options/options.js';
import { HandlineError } from '../../score/errors.js';

/** Counts the notes of a score. */
export class NoteCount {
  private count = 0;

  constructor(
    private readonly limits: Limits,
    private readonly file?: string,
  ) {}

  /** @throws HandlineError LIMIT where there are too many */
  add(): void {
    this.count += 1;
    const { maxNotes } = this.limits;
    if (this.count <= maxNotes) return;
    const place = this.file === undefined ? {} : { file: this.file };
    throw new HandlineError('LIMIT', `has more than ${maxNotes} notes (limits.maxNotes)`, place);
  }
}
