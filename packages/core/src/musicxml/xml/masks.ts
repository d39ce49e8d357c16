import { firstNotBefore } from '../../numeric/binary-search.js';

/** Ranges of a text in which there is nothing to parse, in ascending order. */
export class Masks {
  readonly #starts: number[] = [];
  readonly #ends: number[] = [];

  add(start: number, end: number): void {
    this.#starts.push(start);
    this.#ends.push(end);
  }

  /** A piece of the text as it is to be parsed, offsets as they are; no range reaches over its ends. */
  slice(text: string, from: number, to: number): string {
    const pieces: string[] = [];
    let at = from;
    for (let nth = firstNotBefore(this.#starts, from, isBefore); (this.#starts[nth] ?? to) < to; nth++) {
      const [start, end] = [this.#starts[nth] as number, this.#ends[nth] as number];
      pieces.push(text.slice(at, start), mask(text, start, end));
      at = end;
    }
    pieces.push(text.slice(at, to));
    return pieces.join('');
  }
}

function isBefore(start: number, from: number): boolean {
  return start < from;
}

/** An instruction may interrupt a value, so that it becomes a comment; one too short for that quotes nothing. */
function mask(text: string, start: number, end: number): string {
  if (!text.startsWith('<?', start)) return ' '.repeat(end - start);
  const inside = end - start - '<!---->'.length;
  return inside < 0 ? text.slice(start, end) : `<!--${' '.repeat(inside)}-->`;
}
