import { describe, expect, it } from 'vitest';
import { align, strayed, transposition } from '#core/musicxml/marks/record/align.js';
import { headsOf, recordsOf, says, type TestHead } from './rows.js';

describe('a part that another hand has transposed', () => {
  const row = (records: string, up: number, heads = records) => ({
    records: recordsOf(records),
    heads: headsOf(heads, up),
  });
  const scale = 'c1 d2 e3 f1 g2 a3 b4 c5';

  it('lies as much higher as most of its rows', () => {
    for (const up of [0, 1, 5, 11]) expect(transposition([row(scale, up)])).toBe(up);
    expect(transposition([row(scale, 12)])).toBe(0);
    expect(transposition([row(scale, -1)])).toBe(11);
    expect(transposition([row(scale, 3), row('c1 d2', 5)])).toBe(3);
  });

  it('does not where seven notes alone say so, in one row or more', () => {
    expect(transposition([row('c1 d2 e3 f1 g2 a3 b4', 3)])).toBe(0);
    expect(transposition([row('c1 d2 e3 f1 g2 a3 b4', 3), row('c1', 3)])).toBe(3);
    expect(transposition([row('c1 d2 e3 f1', 3), row('c1 d2 e3 f1', 4)])).toBe(0);
    expect(transposition([])).toBe(0);
  });

  it('does not where as many notes stand where they stood', () => {
    expect(transposition([row(scale, 0), row(scale, 4)])).toBe(0);
    expect(transposition([row(scale, 4), row(`${scale} d`, 0)])).toBe(0);
    expect(transposition([row(`${scale} d`, 4), row(scale, 0)])).toBe(4);
  });

  it('is not told by rows that have other notes, fewer of them or no records', () => {
    expect(transposition([row(scale, 3, 'c d e f g a b d')])).toBe(0);
    expect(transposition([row(scale, 3, 'c d e f g a b')])).toBe(0);
    expect(transposition([row('', 3, 'c d'), row(scale, 3)])).toBe(3);
    expect(transposition([row(scale, 3, `${scale} d e`)])).toBe(3);
  });
});

describe('notes that have strayed into a neighbouring measure', () => {
  /** By row the key of every record's head. */
  function found(rows: readonly (readonly [records: string, heads: string])[], shift = 0) {
    const all = rows.map(([records, heads]) => ({
      records: recordsOf(records),
      heads: headsOf(heads, shift),
    }));
    const own = all.map((row) => align(row, shift, says));
    return strayed(all, own, shift, says).map((heads) =>
      heads.map((head) => {
        if (head === undefined) return '-';
        const nth = all.findIndex((row) => row.heads.includes(head as TestHead));
        return `${nth}.${all[nth]!.heads.indexOf(head as TestHead)}`;
      }),
    );
  }

  it('are found in the row before or behind, with the digit on record', () => {
    for (const shift of [0, 2, 11]) {
      expect(
        found(
          [
            ['c1 d2', 'c1'],
            ['e3', 'd2 e3'],
          ],
          shift,
        ),
      ).toEqual([['0.0', '1.0'], ['1.1']]);
      expect(
        found(
          [
            ['c1', 'c1 d2'],
            ['d2 e3', 'e3'],
          ],
          shift,
        ),
      ).toEqual([['0.0'], ['0.1', '1.0']]);
    }
  });

  it('are not where the digit is another, none was written, or a record of that row has it', () => {
    expect(
      found([
        ['c1 d2', 'c1'],
        ['e3', 'd4 e3'],
      ]),
    ).toEqual([['0.0', '-'], ['1.1']]);
    expect(
      found([
        ['c1 d', 'c1'],
        ['e3', 'd e3'],
      ]),
    ).toEqual([['0.0', '-'], ['1.1']]);
    expect(
      found([
        ['c1 d2', 'c1'],
        ['d2', 'd2'],
      ]),
    ).toEqual([['0.0', '-'], ['1.0']]);
    expect(
      found([
        ['c1 d2 d2', 'c1'],
        ['e3', 'd2 e3'],
      ]),
    ).toEqual([['0.0', '1.0', '-'], ['1.1']]);
    expect(
      found([
        ['c1 d2', 'c1'],
        ['e3', 'f2 e3'],
      ]),
    ).toEqual([['0.0', '-'], ['1.1']]);
  });

  it('are not two rows away', () => {
    expect(
      found([
        ['c1 d2', 'c1'],
        ['e3', 'e3'],
        ['f4', 'd2 f4'],
      ]),
    ).toEqual([['0.0', '-'], ['1.0'], ['2.1']]);
  });
});
