import type { ReadResult } from '../../musicxml/read/score.js';

/** Indices of the measures with which the file begins a new page, ascending; a page break of any part is one of all. */
export function pageStarts({ measureElements }: Pick<ReadResult, 'measureElements'>): readonly number[] {
  const starts = new Set<number>();
  for (const measures of measureElements) {
    for (const [index, { children }] of measures.entries()) {
      for (const element of children)
        if (element.name === 'print' && element.attribute('new-page') === 'yes') starts.add(index);
    }
  }
  return [...starts].sort((a, b) => a - b);
}
