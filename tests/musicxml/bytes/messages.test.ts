import { describe, expect, it } from 'vitest';
import { decode, encode } from '#core/musicxml/bytes/decode.js';
import { isLonger } from '#core/musicxml/bytes/encoding.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { HandlineError } from '#core/score/errors.js';
import { refusal } from '../read-source.js';

const bytes = (...parts: readonly (string | number)[]) =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === 'number' ? part : [...Buffer.from(part, 'latin1')])),
  );
const said = (input: Uint8Array) => refusal(() => decode(input, DEFAULT_LIMITS, 'f.xml')).message;
const declaring = (encoding: string) => `<?xml version="1.0" encoding="${encoding}"?>`;
const AGAIN = 'save the file again in the encoding that it declares';

describe('what is said of bytes that are no text', () => {
  it.each([
    ['is empty; give a MusicXML file', bytes()],
    ['is compressed by gzip; unpack it first', bytes(0x1f, 0x8b, 8)],
    ['is encoded in UTF-32; save it as UTF-8', bytes(0xff, 0xfe, 0, 0)],
    ['is encoded in UTF-32; save it as UTF-8', bytes(0, 0, 0xfe, 0xff)],
    ['declares utf-16 but is not encoded that way; save it as UTF-8', bytes(declaring('utf-16'))],
    ['is encoded in EUC-JP, which is not supported; save it as UTF-8', bytes(declaring('EUC-JP'))],
    ['is not a MusicXML file; export the score as MusicXML', bytes(0x89, 'PNG')],
    ['is not a MusicXML file; export the score as MusicXML', bytes(0, 1, 0xfe, 0xff)],
    ['is not a MusicXML file; export the score as MusicXML', bytes(0, 0, 1, 0xff)],
    ['is not a MusicXML file; export the score as MusicXML', bytes('%PDF', 0xff)],
    [`line 1: byte 3 is not valid UTF-8; ${AGAIN}`, bytes('<a>', 0xff)],
    [`line 4: byte 9 is not valid UTF-8; ${AGAIN}`, bytes(' \t\r\n<a>\n\n', 0xff, '</a>')],
    [`line 2: byte 4 is not valid UTF-8; ${AGAIN}`, bytes(0xef, 0xbb, 0xbf, '<a>\n', 0xff, '<')],
    [`line 1: byte 1 is not valid UTF-8; ${AGAIN}`, bytes('<', 0xff)],
    // Where a character breaks off.
    [`line 1: byte 4 is not valid UTF-8; ${AGAIN}`, bytes('<a>', 0xc3, '(')],
    [`line 2: byte 5 is not valid UTF-16LE; ${AGAIN}`, bytes(0xff, 0xfe, '<', 0, '\n', 0, 'a')],
    [`line 1: byte 3 is not valid UTF-16BE; ${AGAIN}`, bytes(0xfe, 0xff, 0, '<', 0xdc, 0, 0, '>')],
    [`line 2: byte 42 is not valid ASCII; ${AGAIN}`, bytes(declaring('ascii'), '\n<a>', 0x80)],
    ['begins with two byte-order marks; save it again', bytes(0xfe, 0xff, 0xfe, 0xff, 0, '<')],
    ['begins with two byte-order marks; save it again', bytes(0xff, 0xfe, 0xff, 0xfe, '<', 0)],
  ])('%s', (expected, input) => {
    expect(said(input)).toBe(`f.xml: ${expected}`);
  });

  it('one byte more than the limit, with a name or without', () => {
    const limits = { ...DEFAULT_LIMITS, maxBytes: 4 };
    expect(decode(bytes('<a/>'), limits).text).toBe('<a/>');
    const long = bytes('<ab/>');
    expect(refusal(() => decode(long, limits)).message).toBe('has more than 4 bytes (limits.maxBytes)');
    expect(refusal(() => decode(long, limits, 'f')).message).toBe(
      'f: has more than 4 bytes (limits.maxBytes)',
    );
  });

  it('of a file without a name nothing but what is known', () => {
    const place = (input: Uint8Array, limits = DEFAULT_LIMITS) => {
      try {
        decode(input, limits);
      } catch (error) {
        return (error as HandlineError).place;
      }
    };
    expect(place(bytes())).toStrictEqual({});
    expect(place(bytes('<ab/>'), { ...DEFAULT_LIMITS, maxBytes: 4 })).toStrictEqual({});
    expect(place(bytes('<a>\n', 0xff))).toStrictEqual({ line: 2 });
  });
});

describe('the encoding of a text', () => {
  it.each([
    ['UTF-8 without a declaration', bytes('<a/>'), 'utf-8', 0],
    ['UTF-8 by another spelling', bytes(declaring('UTF8'), '<a/>'), 'utf-8', 0],
    ['UTF-8 by its mark', bytes(0xef, 0xbb, 0xbf, declaring('latin1'), '<a/>'), 'utf-8', 3],
    ['two bytes of its mark', bytes(declaring('latin1'), 0xef, 0xbb), 'latin1', 0],
    ['UTF-16 by its mark', bytes(0xff, 0xfe, '<', 0), 'utf-16le', 2],
    ['the other UTF-16 by its mark', bytes(0xfe, 0xff, 0, '<'), 'utf-16be', 2],
    ['UTF-16 by its zeros', bytes('<', 0, '?', 0), 'utf-16le', 0],
    ['the other UTF-16 by its zeros', bytes(0, '<', 0, '?'), 'utf-16be', 0],
    ['UTF-8 where its mark is another character', bytes(0xef, 0xa0, 0xbf), 'utf-8', 0],
    ['UTF-8 where its mark ends otherwise', bytes(0xef, 0xbb, 0x80), 'utf-8', 0],
    ['UTF-8 where no zero follows', bytes(0, '<a'), 'utf-8', 0],
    ['UTF-8 where a zero stands before another sign', bytes(0, 'x', 0), 'utf-8', 0],
    ['UTF-8 where more than one zero follows', bytes('<', 0, 0, 0), 'utf-8', 0],
    ['a declaration in single quotes', bytes(`<?xml version='1.0' encoding = ' Latin1 '?>`), 'latin1', 0],
    ['the name of a declaration only', bytes(`<?xml version="1.0"?><a encoding="EUC-JP"/>`), 'utf-8', 0],
  ])('is %s', (_, input, name, bom) => {
    expect(decode(input, DEFAULT_LIMITS).encoding).toMatchObject({ name, bom });
  });

  it('is kept, with its mark, for a text in one piece or many, long or short', () => {
    const long = 'é'.repeat(20_000);
    for (const [mark, name] of [
      [[0xff, 0xfe], 'utf16le'],
      [[0xef, 0xbb, 0xbf], 'utf8'],
    ] as const) {
      const decoded = decode(Uint8Array.from([...mark, ...Buffer.from('<a/>', name)]), DEFAULT_LIMITS);
      for (const pieces of [[], ['<b/>'], ['<b>', long, long, 'x', long, '</b>'], [long, long]]) {
        const expected = Buffer.concat([Uint8Array.from(mark), Buffer.from(pieces.join(''), name)]);
        expect(Buffer.compare(encode(decoded, pieces).bytes, expected)).toBe(0);
      }
    }
  });

  it('gives the input back for the same text in pieces, and only for that', () => {
    const decoded = decode(bytes('<a>bc</a>'), DEFAULT_LIMITS);
    expect(encode(decoded, ['<a>', 'bc', '</a>']).bytes).toBe(decoded.original);
    for (const text of ['<a>bc</a', '<a>bc</a> ', '<a>cb</a>', ''])
      expect(Buffer.from(encode(decoded, [text]).bytes).toString()).toBe(text);
  });

  it.each([
    ['', 0],
    ['abc', 3],
    ['\u007f\u0080\u07ff\u0800\uffff', 11],
    ['\u{10000}\u{10ffff}', 8],
    ['\ud7ff\ue000', 6],
  ])('of %j in UTF-8 has %i bytes', (text, length) => {
    for (const pieces of [[text], ['', text], [...text]]) {
      expect(isLonger(pieces, length - 1)).toBe(true);
      expect(isLonger(pieces, length)).toBe(false);
    }
  });
});
