import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align } from '#core/musicxml/marks/record/align.js';
import type { HeadRecord } from '#core/musicxml/marks/record/token.js';
import { headsOf, recordsOf, says, type TestHead } from './rows.js';

/** Places among the heads, in order of the records; `-` for none. */
function aligned(records: string, heads: string, shift = 0): string {
  const all = headsOf(heads, shift);
  const found = align({ records: recordsOf(records), heads: all }, shift, says);
  return found.map((head) => (head === undefined ? '-' : all.indexOf(head as TestHead))).join(' ');
}

describe('records find their heads', () => {
  it.each([
    ['all there', 'c1 d2 e3', 'c1 d2 e3', '0 1 2'],
    ['all there, and digits changed', 'c1 d2 e3', 'c5 d e4', '0 1 2'],
    ['with more behind them', 'c1 d2', 'c1 d2 c1 d2', '0 1'],
    ['behind a new note', 'c1 d2 e3', 'g c1 d2 e3', '1 2 3'],
    ['around a new note', 'c1 d2 e3', 'c1 g d2 e3', '0 2 3'],
    ['without one that was taken out', 'c1 d2 e3', 'c1 e3', '0 - 1'],
    ['without the first', 'c1 d2 e3', 'd2 e3', '- 0 1'],
    ['two notes in the other order', 'c1 d2 e3 f4', 'c1 e3 d2 f4', '0 2 1 3'],
    ['none', 'c1 d2', 'g a', '- -'],
    ['none of none', 'c1', '', '-'],
    ['no records', '', 'c1', ''],
    // The first c has another digit: the record speaks of the second.
    ['by their digits', 'c1 d2', 'c3 c1 d2', '1 2'],
    ['without a digit by their pitch', 'c d2', 'g c5 d2', '1 2'],
    // c has lost its digit: what is left over nearby has at least its pitch.
    ['that have lost their digit', 'c1 d2 e3', 'g c d2 e3', '1 2 3'],
    ['that have lost their digit, rather than none', 'c1', 'g c', '1'],
    ['with the digit rather than nearer', 'd2 c1', 'd2 e c g c1', '0 4'],
    ['the longer series of two', 'c1 d2 e3 f4', 'f4 c1 d2 e3', '1 2 3 0'],
    ['at both ends', 'c1 d2 e3 f4 g5', 'c1 d2 x f4 g5', '0 1 - 3 4'],
  ])('%s', (_, records, heads, expected) => {
    expect(aligned(records, heads)).toBe(expected);
    // As many semitones higher, over the octave as well.
    for (const shift of [1, 7, 11]) expect(aligned(records, heads, shift)).toBe(expected);
  });

  it('within 24 heads of where they would stand, of two as near the earlier', () => {
    const others = (count: number) => Array.from({ length: count }, () => 'x').join(' ');
    // d stands first; c is expected behind it.
    expect(aligned('d2 c1', `d2 ${others(24)} c1`)).toBe('0 25');
    expect(aligned('d2 c1', `d2 ${others(25)} c1`)).toBe('0 26');
    // Two that cross: c and d are the series in common, and e, expected first, lies so far behind.
    expect(aligned('e3 c1 d2', `c1 ${others(2)} e3 d2`)).toBe('3 0 4');
    const crossed = (count: number) => aligned('e3 c1 d2', `c1 ${others(count)} e3 d2`);
    expect(crossed(22)).toBe('23 0 24');
    expect(crossed(23)).toBe('24 0 25');
    expect(crossed(24)).toBe('- 0 26');
    // And here e and d are, and c, expected behind e, lies further on.
    const behind = (count: number) => aligned('e3 c1 d2', `x e3 d2 ${others(count)} c1`);
    expect(behind(0)).toBe('1 3 2');
    expect(behind(23)).toBe('1 26 2');
    expect(behind(24)).toBe('1 - 2');
    // e f d g are in common; c, expected behind f, stands before and behind.
    expect(aligned('e3 f1 c1 d2 g2', 'c1 x e3 f1 d2 g2 c1')).toBe('2 3 6 4 5');
    expect(aligned('e3 f1 c1 d2 g2', 'c1 e3 f1 d2 g2 x x c1')).toBe('1 2 0 3 4');
    expect(aligned('e3 f1 c1 d2 g2', 'c1 e3 f1 d2 g2 x c1')).toBe('1 2 0 3 4');
  });

  it('each another one', () => {
    expect(aligned('c1 c1 c1', 'g c1 c1').split(' ').sort()).toEqual(['-', '1', '2']);
    expect(aligned('c c c', 'g c c c')).toBe('1 2 3');
  });

  it('as many as the longest series that both have in common, and only of their pitch', () => {
    /** The longest common subsequence, by trying every one. */
    const longest = (records: readonly HeadRecord[], heads: readonly TestHead[]): number => {
      const [record, ...rest] = records;
      if (record === undefined) return 0;
      const behind = heads.flatMap((head, at) =>
        head.key % 12 === record.pitch && (record.written === undefined || record.written === head.digit)
          ? [1 + longest(rest, heads.slice(at + 1))]
          : [],
      );
      return Math.max(longest(rest, heads), ...behind);
    };
    const word = fc.constantFrom('c1', 'c2', 'd1', 'd', 'e3', 'c');
    const words = fc.array(word, { maxLength: 6 }).map((all) => all.join(' '));
    let moved = 0;
    fc.assert(
      fc.property(words, words, (written, stands) => {
        const [records, heads] = [recordsOf(written), headsOf(stands)];
        const found = align({ records, heads }, 0, says);
        expect(found).toHaveLength(records.length);
        const taken = found.flatMap((head) => head ?? []);
        expect(new Set(taken).size).toBe(taken.length);
        found.forEach((head, at) => {
          if (head) expect(head.key % 12).toBe(records[at]!.pitch);
        });
        const certain = found.filter((head, at) => {
          const { written: digit } = records[at]!;
          return head && (digit === undefined || says(head, digit));
        });
        const inPlace = records.every(({ pitch }, at) => heads[at] && heads[at].key % 12 === pitch);
        if (!inPlace) {
          moved++;
          expect(certain.length).toBeGreaterThanOrEqual(longest(records, heads));
        }
        // Whatever is left over of both is not of one pitch.
        const free = heads.filter((head) => !taken.includes(head)).map(({ key }) => key % 12);
        found.forEach((head, at) => {
          if (!head) expect(free).not.toContain(records[at]!.pitch);
        });
      }),
      { numRuns: 500 },
    );
    expect(moved).toBeGreaterThan(20);
  });

  it('at both ends, where a table of all would be too large', () => {
    const many = (count: number, word: string) => Array.from({ length: count }, () => word).join(' ');
    const records = `c1 d2 ${many(2100, 'e3')} f4`;
    const found = aligned(records, `c1 d2 ${many(2100, 'g5')} f4`).split(' ');
    expect([found[0], found[1], found[2], found.at(-1)]).toEqual(['0', '1', '-', '2102']);
  });
});
