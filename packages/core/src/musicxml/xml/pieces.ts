import type { Span } from '../../score/model.js';

/** Characters of a piece: enough to make up for what it costs to begin one. */
const LENGTH = 65_536;

/** Cuts a text into pieces that hold whole elements of one level: measures, or in a timewise score also parts. */
export class Pieces {
  readonly list: Span[] = [];
  /** Of the elements that pieces hold. */
  #depth = 0;
  /** Where the next piece begins; -1 where none has begun. */
  #start = -1;

  /**
   * An element begins that holds others.
   *
   * @param depth number of elements around it
   */
  begin(name: string, depth: number, at: number): void {
    if (depth === 0) this.#depth = name.endsWith('timewise') ? 1 : 2;
    else if (depth === this.#depth) {
      if (this.#start !== -1 && at - this.#start < LENGTH) return;
      if (this.#start !== -1) this.list.push({ start: this.#start, end: at });
      this.#start = at;
    }
  }

  /** An end tag begins; what is short is left to be parsed with all around the pieces. */
  end(depth: number, at: number): void {
    if (depth >= this.#depth) return;
    if (this.#start !== -1 && at - this.#start >= LENGTH) this.list.push({ start: this.#start, end: at });
    this.#start = -1;
  }
}
