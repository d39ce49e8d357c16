/** Where a piece stands in a text, for questions in ascending order: each occurrence is looked for once. */
export class Places {
  #found = -1;

  constructor(
    private readonly text: string,
    private readonly piece: string,
  ) {}

  /** The first one at `from` or behind it; the length of the text where there is none. */
  next(from: number): number {
    if (this.#found < from) {
      const found = this.text.indexOf(this.piece, from);
      this.#found = found === -1 ? this.text.length : found;
    }
    return this.#found;
  }
}
