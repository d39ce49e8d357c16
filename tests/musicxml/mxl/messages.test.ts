import { deflateSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { refusal } from '../read-source.js';
import { type Around, checksum, container, type Entry, SCORE, zip } from './zip.js';

const said = (input: Uint8Array, limits = DEFAULT_LIMITS) =>
  refusal(() => decode(input, limits, 'f.mxl')).message;
const textOf = (input: Uint8Array, limits = DEFAULT_LIMITS) => decode(input, limits).text;
/** An archive of a container, a score with something changed, and more. */
const archive = (score: Partial<Entry> = {}, around: Around = {}, more: readonly Entry[] = []) =>
  zip([container('s.xml'), { name: 's.xml', data: SCORE, ...score }, ...more], around);
const named = (name: string) => archive({}, {}, [{ name, data: '' }]);
const naming = (...paths: readonly string[]) => zip([container(...paths), { name: 's.xml', data: SCORE }]);
const cut = (bytes: Uint8Array, length: number) => bytes.subarray(0, bytes.length + length);
const leaves = (path: string) => `the archive path ${JSON.stringify(path)} leaves the archive; it is refused`;

const NONE =
  'is not a MusicXML file but an archive without META-INF/container.xml; export the score as .mxl or .musicxml';
const PARTS = 'is a multi-part or ZIP64 archive, which is not supported; compress it again';
const DIRECTORY = 'has a damaged archive directory; compress it again';
const DAMAGED = 'the archive entry "s.xml" is damaged; compress it again';
const NO_SCORE = 'has a META-INF/container.xml that names no score';

describe('what is said of an archive', () => {
  it.each([
    [NONE, zip([])],
    [NONE, zip([{ name: 's.xml', data: SCORE }])],
    [NO_SCORE, naming()],
    [NO_SCORE, naming('', '<rootfile/>')],
    [`${NO_SCORE}, but "s.pdf"`, naming('s.pdf', 's.mid')],
    [`${NO_SCORE}, but "${'s'.repeat(60)}"`, naming(`${'s'.repeat(70)}.jpeg`)],
    [`${NO_SCORE}, but "s.xml"`, naming('<rootfile full-path="s.xml" media-type="audio/midi"/>')],
    ['names the score "t.xml" but does not contain it', naming('t.xml', 'u.xml')],
    [
      'names the score "a./s.xml" but does not contain it',
      zip([container('a./s.xml'), { name: 'as.xml', data: SCORE }]),
    ],
    // Paths.
    [leaves(''), named('')],
    [leaves('..'), named('..')],
    [leaves('a/../b'), named('a/../b')],
    [leaves('a\\..'), named('a\\..')],
    [leaves('/a'), named('/a')],
    [leaves('\\a'), named('\\a')],
    [leaves('c:a'), named('c:a')],
    [leaves('a\0'), named('a\0')],
    [leaves(`/${'a'.repeat(59)}`), named(`/${'a'.repeat(90)}`)],
    [leaves('../s.xml'), naming('../s.xml')],
    [leaves('../s.xml'), naming('%2E%2e/s.xml')],
    // The directory.
    [PARTS, archive({}, { stated: { 4: 1 } })],
    [PARTS, archive({}, { stated: { 10: 0xffff } })],
    [PARTS, archive({}, { stated: { 16: 0xffff, 18: 0xffff } })],
    [DIRECTORY, archive({}, { stated: { 14: 1 } })],
    [DIRECTORY, archive({}, { stated: { 10: 3 } })],
    [DIRECTORY, archive({ stated: { 0: 0 } })],
    ['has the archive entry "s.xml" twice', archive({}, {}, [{ name: 's.xml', data: '' }])],
    ['is a damaged or truncated archive; compress it again', cut(archive(), -1)],
    ['is a damaged or truncated archive; compress it again', Uint8Array.of(0x50, 0x4b, 3, 4)],
    // An entry.
    ['has a damaged archive entry "s.xml"; compress it again', archive({ stated: { 42: 9, 44: 0 } })],
    ['has a damaged archive entry "s.xml"; compress it again', archive({ stated: { 42: 0, 44: 99 } })],
    ['has a truncated archive entry "s.xml"', archive({ stated: { 20: SCORE.length + 1 } })],
    ['has an encrypted archive entry "s.xml"; remove the encryption', archive({ flags: 1 })],
    ['the archive entry "s.xml" is compressed by method 12; use deflate', archive({ stated: { 10: 12 } })],
    [DAMAGED, archive({ stated: { 16: 1 } })],
    [DAMAGED, archive({ stated: { 24: SCORE.length + 1 } })],
    // Stored, but said to be deflated.
    [DAMAGED, archive({ data: '\u0007'.repeat(99), stated: { 10: 8 } })],
  ])('%s', (expected, input) => {
    expect(said(input)).toBe(`f.mxl: ${expected}`);
  });

  it('names its container where that is no XML', () => {
    const bytes = zip([{ name: 'META-INF/container.xml', data: 's.xml' }]);
    const rest = 'line 1, column 1: there is text before the first element; this is not MusicXML';
    expect(said(bytes)).toBe(`f.mxl/META-INF/container.xml: ${rest}`);
    expect(refusal(() => decode(bytes, DEFAULT_LIMITS)).message).toBe(`META-INF/container.xml: ${rest}`);
  });

  it('one entry too many', () => {
    const many = Array.from({ length: 4095 }, (_, at): Entry => ({ name: `${at}`, data: '' }));
    expect(said(archive({}, {}, many))).toBe('f.mxl: has 4097 archive entries, more than 4096');
    expect(textOf(archive({}, {}, many.slice(1)))).toBe(SCORE);
  });

  it('one byte too many: more than the limit, more than is stated, or more than the ratio allows', () => {
    const packed = (length: number) =>
      zipSync({
        'META-INF/container.xml': Buffer.from(container('s.xml').data),
        's.xml': Buffer.from(SCORE.padEnd(length)),
      });
    const beyond = (most: number) =>
      `f.mxl: the archive entry "s.xml" unpacks to more than ${most} bytes (limits.maxBytes, limits.maxRatio)`;
    const mebibyte = 1_048_576;
    const strict = { ...DEFAULT_LIMITS, maxRatio: 1 };
    expect(textOf(packed(mebibyte), strict)).toHaveLength(mebibyte);
    expect(said(packed(mebibyte + 1), strict)).toBe(beyond(mebibyte));
    expect(textOf(packed(5000), { ...DEFAULT_LIMITS, maxBytes: 5000 })).toHaveLength(5000);
    expect(said(packed(5001), { ...DEFAULT_LIMITS, maxBytes: 5000 })).toBe(beyond(5000));
    const liar = packed(5000);
    // The length of the score, in the last record of the directory.
    new DataView(liar.buffer).setUint32(liar.length - 22 - (46 + 's.xml'.length) + 24, 4999, true);
    expect(said(liar)).toBe('f.mxl: the archive entry "s.xml" is larger than it states; it is refused');
  });
});

describe('an archive is read', () => {
  it.each([
    ['with a comment', archive({}, { comment: 'hello' })],
    ['with the longest comment', archive({}, { comment: 'PK\x05\x06'.repeat(16_383) })],
    ['with more behind it', archive({}, { behind: 'x'.repeat(70_000) })],
    ['with something before it', archive({}, { before: 'PK\x03\x04' })],
    ['with something between', archive({}, { between: 'x' })],
    ['with something between and a comment', archive({}, { between: 'x', comment: 'hello' })],
    ['in any order', archive({}, { order: [1, 0] })],
    [
      'with names that look dangerous',
      archive(
        {},
        {},
        ['a..b', 'ab:c', 'a/..b', 'a/b:c', '...'].map((name) => ({ name, data: '' })),
      ),
    ],
    ['from backslashes', zip([container('a/s.xml'), { name: 'a\\s.xml', data: SCORE }])],
    ['from the container’s own folder', zip([container('././s.xml'), { name: 's.xml', data: SCORE }])],
    [
      'from an entry of its own folder',
      zip([
        { ...container('s.xml'), name: './META-INF/container.xml' },
        { name: '././s.xml', data: SCORE },
      ]),
    ],
    [
      'by the exact name before a like one',
      zip([container('s.xml'), { name: './s.xml', data: 'x' }, { name: 's.xml', data: SCORE }]),
    ],
    [
      'by its extension before a file of an unknown kind',
      zip([container('b', 'S.XML'), { name: 'b', data: 'x' }, { name: 'S.XML', data: SCORE }]),
    ],
    ['with a false percent sign in its name', zip([container('5%.xml'), { name: '5%.xml', data: SCORE }])],
  ])('%s', (_, input) => {
    expect(textOf(input)).toBe(SCORE);
  });

  it('where it is deflated into as many bytes as are inflated at a time', () => {
    // One block that is not compressed has five bytes beside its content.
    for (const length of [16_384 - 5, 2 * 16_384 - 5]) {
      const text = SCORE.padEnd(length);
      const sum = checksum(Buffer.from(text));
      const stated = { 10: 8, 16: sum & 0xffff, 18: sum >>> 16, 24: length };
      const data = deflateSync(Buffer.from(text), { level: 0 });
      expect(data).toHaveLength(length + 5);
      expect(textOf(archive({ data, stated }))).toBe(text);
    }
  });

  it('as a text where it only begins like one', () => {
    for (const [third, code] of [
      [2, 'NOT_XML'],
      [3, 'ARCHIVE'],
      [5, 'ARCHIVE'],
      [7, 'ARCHIVE'],
    ] as const)
      expect(refusal(() => decode(Uint8Array.of(0x50, 0x4b, third, 0xff), DEFAULT_LIMITS)).code).toBe(code);
  });
});
