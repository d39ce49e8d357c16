/** Features of one kind: their number is the product of the dimensions, the last of which runs fastest. */
export interface Block {
  readonly name: string;
  /** Number of values by dimension. */
  readonly dimensions: Readonly<Record<string, number>>;
  /** First feature within the term. */
  readonly start: number;
  readonly size: number;
}

/** The blocks of a term, one after the other. */
export function blocksOf(
  dimensions: Readonly<Record<string, Readonly<Record<string, number>>>>,
): readonly Block[] {
  const blocks: Block[] = [];
  let start = 0;
  for (const [name, own] of Object.entries(dimensions)) {
    const size = Object.values(own).reduce((product, count) => product * count, 1);
    blocks.push({ name, dimensions: own, start, size });
    start += size;
  }
  return blocks;
}

export function sizeOf(blocks: readonly Block[]): number {
  return blocks.reduce((sum, { size }) => sum + size, 0);
}

/** First feature of every block. */
export function startsOf(blocks: readonly Block[]): number[] {
  return blocks.map(({ start }) => start);
}
