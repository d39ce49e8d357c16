import { firstNotBefore } from '../../numeric/binary-search.js';
import type { Place } from '../../score/errors.js';

/** Line and column, both from 1, of an offset; lines end with LF, CR LF or CR. */
export function positionOf(text: string, offset: number): { line: number; column: number } {
  return new LineIndex(text).positionAt(offset);
}

/** `place` with the line and column of an offset added. */
export function placeAt(text: string, offset: number, file?: string): Place {
  return { ...(file === undefined ? {} : { file }), ...positionOf(text, offset) };
}

/** Starts of all lines of a text, for many look-ups. */
export class LineIndex {
  private readonly starts: Int32Array;
  private last = 0;

  constructor(text: string) {
    const end = text.includes('\n') || !text.includes('\r') ? '\n' : '\r';
    let lines = 1;
    for (let at = text.indexOf(end); at !== -1; at = text.indexOf(end, at + 1)) lines += 1;
    // To count them first costs less than a list that grows.
    this.starts = new Int32Array(lines);
    let line = 0;
    for (let at = text.indexOf(end); at !== -1; at = text.indexOf(end, at + 1)) this.starts[++line] = at + 1;
  }

  /** Offset of the first character of a line. */
  startOf(line: number): number {
    return this.starts[line - 1] ?? 0;
  }

  /** Line and column of an offset, both from 1. */
  positionAt(offset: number): { line: number; column: number } {
    const line = this.lineAt(offset);
    return { line, column: offset - this.startOf(line) + 1 };
  }

  /** Line number of an offset, from 1. Fast where offsets ascend. */
  lineAt(offset: number): number {
    const { starts } = this;
    const low = (starts[this.last] ?? 0) <= offset ? this.last : 0;
    let high = starts.length - 1;
    for (let step = 1; low + step <= high && step < 64; step *= 2) {
      if ((starts[low + step] ?? 0) > offset) {
        high = low + step - 1;
        break;
      }
    }
    this.last = firstNotBefore(starts, offset, isNoLater, low + 1, high + 1) - 1;
    return this.last + 1;
  }
}

function isNoLater(start: number, offset: number): boolean {
  return start <= offset;
}
