import { describe, expect, it } from 'vitest';
import { decode, encode } from '#core/musicxml/bytes/decode.js';
import { crc32 } from '#core/musicxml/mxl/crc32.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { type Around, checksum, container, type Entry, SCORE, written, zip } from './zip.js';

const MARKED = '<score-partwise>marked</score-partwise>';
const KEPT = 'META-INF/handline-original';
const open = (bytes: Uint8Array) => decode(bytes, DEFAULT_LIMITS);
const mark = (bytes: Uint8Array, text = MARKED) => encode(open(bytes), [text]).bytes;

/** The entry that keeps the score as it was: what its record says of the compression, then its local header and data. */
function kept(score: Entry, name = KEPT): Entry {
  const { local, record } = written(score);
  const data = Buffer.concat([record.subarray(6, 28), local.subarray(4)]);
  return { name, data, date: 0x21, version: 10 };
}

const SOURCE: Entry = { name: 's.xml', data: SCORE };

describe('a marked archive, byte for byte', () => {
  const notes: Entry = {
    name: 'notes.txt',
    data: 'notes',
    extra: 'AB\x02\x00cd',
    comment: 'of notes',
    date: 0x1234,
  };
  const file = container('s.xml');

  it.each<[string, Entry, readonly Entry[], number, Around?]>([
    ['the score last', SOURCE, [file, notes], 2],
    ['the score first', SOURCE, [file, notes], 0],
    ['the score between', { ...SOURCE, extra: 'EF\x00\x00', comment: 'c' }, [file, notes], 1],
    ['sizes behind the score', { ...SOURCE, isStreamed: true, flags: 0x800 }, [file, notes], 1],
    ['sizes behind another file', SOURCE, [file, { ...notes, isStreamed: true }], 2],
    ['another order in the directory', SOURCE, [file, notes], 0, { order: [2, 0, 1] }],
    ['bytes before and behind', SOURCE, [file, notes], 1, { before: 'PK\x03\x04', behind: '\r\n' }],
    ['bytes before its last record', SOURCE, [file, notes], 1, { between: '--' }],
    ['a comment', SOURCE, [file, notes], 1, { comment: 'PK' }],
  ])('with %s', (_, score, others, at, around = {}) => {
    const entries = others.toSpliced(at, 0, score);
    const original = zip(entries, around);
    const changed = { ...score, data: MARKED, isStreamed: false };
    const after = [...entries.with(at, changed), kept(score)];
    const order = [...(around.order ?? entries.keys()), entries.length];
    const marked = mark(original);
    expect(Buffer.from(marked)).toEqual(Buffer.from(zip(after, { ...around, order })));
    const again = open(marked);
    expect(encode(again, [SCORE], SCORE)).toEqual({ bytes: original, repacked: false });
    const other = [...entries.with(at, { ...changed, data: '<b/>' }), kept(score)];
    expect(Buffer.from(encode(again, ['<b/>'], SCORE).bytes)).toEqual(
      Buffer.from(zip(other, { ...around, order })),
    );
  });

  it('keeps the score under the first name that is free, and nowhere where none is', () => {
    const names = [KEPT, `${KEPT}-2`, `${KEPT}-3`, `${KEPT}-4`];
    for (const taken of [1, 2, 3, 4]) {
      const own = names.slice(0, taken).map((name): Entry => ({ name, data: 'notes of my own' }));
      const original = zip([file, SOURCE, ...own]);
      const after = [file, { ...SOURCE, data: MARKED }, ...own];
      if (taken < 4) after.push(kept(SOURCE, names[taken]));
      const marked = mark(original);
      expect(Buffer.from(marked)).toEqual(Buffer.from(zip(after)));
      expect(encode(open(marked), [SCORE], SCORE)).toEqual({ bytes: original, repacked: taken === 4 });
    }
  });

  it('keeps nothing where one entry more would be too many', () => {
    const more = Array.from({ length: 4093 }, (_, at): Entry => ({ name: `${at}`, data: '' }));
    for (const [entries, count] of [
      [[file, SOURCE, ...more], 4096],
      [[file, SOURCE, ...more, notes], 4096],
    ] as const)
      expect(open(mark(zip(entries))).archive?.directory.entries).toHaveLength(count);
  });

  it('drops what it kept of another text', () => {
    const stale = zip([file, { ...SOURCE, data: '<edited/>' }, kept(SOURCE)]);
    const decoded = open(stale);
    const expected = (data: string) => Buffer.from(zip([file, { ...SOURCE, data }]));
    // Marks were taken out of the text before, or there were none.
    expect(Buffer.from(encode(decoded, [MARKED], '<was/>').bytes)).toEqual(expected(MARKED));
    expect(Buffer.from(encode(decoded, [MARKED]).bytes)).toEqual(expected(MARKED));
    const back = encode(decoded, ['<was/>'], '<was/>');
    expect([Buffer.from(back.bytes), back.repacked]).toEqual([expected('<was/>'), true]);
  });

  it.each([
    ['too short', Buffer.alloc(22 + 26 + 4, 5)],
    ['of another name', kept({ ...SOURCE, name: 't.xml' }).data],
    ['of a longer name', kept({ ...SOURCE, name: 's.xmls' }).data],
  ])('leaves a file alone that is %s', (_, data) => {
    const own = { name: KEPT, data };
    const marked = mark(zip([file, SOURCE, own]));
    expect(Buffer.from(marked)).toEqual(
      Buffer.from(zip([file, { ...SOURCE, data: MARKED }, own, kept(SOURCE, `${KEPT}-2`)])),
    );
  });

  it('of a damaged entry of that name makes nothing', () => {
    const own: Entry = { name: KEPT, data: kept(SOURCE).data, stated: { 16: 1 } };
    const marked = open(mark(zip([file, SOURCE, own])));
    expect(marked.archive?.directory.entries.map(({ name }) => name)).toEqual([
      'META-INF/container.xml',
      's.xml',
      KEPT,
      `${KEPT}-2`,
    ]);
  });
});

describe('the checksum', () => {
  it('of nothing, of the digits, whose check value is well known, and of every byte', () => {
    expect(crc32(new Uint8Array())).toBe(0);
    expect(crc32(Buffer.from('123456789'))).toBe(0xcbf43926);
    const all = Uint8Array.from({ length: 256 }, (_, byte) => byte);
    expect(crc32(all)).toBe(checksum(all));
  });
});
