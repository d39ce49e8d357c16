import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode, encode } from '../../packages/core/src/musicxml/decode.js';
import { DEFAULT_LIMITS } from '../../packages/core/src/musicxml/limits.js';
import { bytesOf, READ_FIXTURES, refusal } from './read-source.js';

interface Form {
  readonly declared: string;
  readonly bom: readonly number[];
  readonly highest: number;
  encode(text: string): Buffer;
}

const swap = (text: string) => Buffer.from(text, 'utf16le').swap16();
const FORMS: readonly Form[] = [
  { declared: 'UTF-8', bom: [], highest: 0x10ffff, encode: (text) => Buffer.from(text, 'utf8') },
  {
    declared: 'UTF-8',
    bom: [0xef, 0xbb, 0xbf],
    highest: 0x10ffff,
    encode: (text) => Buffer.from(text, 'utf8'),
  },
  {
    declared: 'UTF-16',
    bom: [0xff, 0xfe],
    highest: 0x10ffff,
    encode: (text) => Buffer.from(text, 'utf16le'),
  },
  { declared: 'UTF-16', bom: [], highest: 0x10ffff, encode: (text) => Buffer.from(text, 'utf16le') },
  { declared: 'UTF-16', bom: [0xfe, 0xff], highest: 0x10ffff, encode: swap },
  { declared: 'utf-16', bom: [], highest: 0x10ffff, encode: swap },
  { declared: 'ISO-8859-1', bom: [], highest: 0xff, encode: (text) => Buffer.from(text, 'latin1') },
  { declared: 'US-ASCII', bom: [], highest: 0x7f, encode: (text) => Buffer.from(text, 'latin1') },
];

function content(highest: number): fc.Arbitrary<string> {
  const unit = fc.integer({ min: 9, max: highest }).filter((code) => code < 0xd800 || code > 0xdfff);
  return fc.array(unit, { maxLength: 60 }).map((codes) => String.fromCodePoint(...codes));
}

describe('decode and encode', () => {
  it('give every form back byte for byte, edited or not', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FORMS).chain((form) => fc.tuple(fc.constant(form), content(form.highest))),
        content(0x7f),
        ([form, body], insertion) => {
          const head = `<?xml version="1.0" encoding="${form.declared}"?><a>`;
          const bytes = (text: string) => new Uint8Array([...form.bom, ...form.encode(text)]);
          const text = `${head}${body}</a>`;
          const decoded = decode(bytes(text), DEFAULT_LIMITS);
          expect(decoded.text).toBe(text);
          expect(encode(decoded, decoded.text).bytes).toEqual(bytes(text));
          const edited = `${head}${insertion}${body}</a>`;
          expect(encode(decoded, edited).bytes).toEqual(bytes(edited));
        },
      ),
      { numRuns: 800 },
    );
  });

  it.each(READ_FIXTURES)('give the fixture %s back', (name) => {
    const bytes = bytesOf(name);
    const decoded = decode(bytes, DEFAULT_LIMITS, name);
    expect(encode(decoded, decoded.text).bytes).toEqual(bytes);
    const back = decode(encode(decoded, `${decoded.text} `).bytes, DEFAULT_LIMITS, name);
    expect([back.text, back.encoding]).toEqual([`${decoded.text} `, decoded.encoding]);
  });

  it('read 0x80 to 0x9f of ISO-8859-1 as what they are, not as windows-1252', () => {
    const bytes = Buffer.from('<?xml version="1.0" encoding="ISO-8859-1"?><a>\x80\x9f\xe9</a>', 'latin1');
    expect(decode(bytes, DEFAULT_LIMITS).text.slice(-7, -4)).toBe('\x80\x9f\xe9');
  });

  it.each([
    ['ISO-8859-1', 'é✓𝄞', 'é&#x2713;&#x1D11E;'],
    ['US-ASCII', 'é✓𝄞', '&#xE9;&#x2713;&#x1D11E;'],
  ])('write a character that %s lacks as a reference', (declared, insertion, expected) => {
    const head = `<?xml version="1.0" encoding="${declared}"?>`;
    const decoded = decode(Buffer.from(`${head}<a/>`, 'latin1'), DEFAULT_LIMITS);
    const written = Buffer.from(encode(decoded, `${head}<a>${insertion}</a>`).bytes).toString('latin1');
    expect(written).toBe(`${head}<a>${expected}</a>`);
  });

  it('trust a byte-order mark more than the declaration', () => {
    const text = '<?xml version="1.0" encoding="ISO-8859-1"?><a>é</a>';
    expect(decode(Buffer.from(`\ufeff${text}`, 'utf8'), DEFAULT_LIMITS).text).toBe(text);
  });

  it.each([
    ['nothing', new Uint8Array(), 'EMPTY', undefined],
    ['invalid UTF-8', Buffer.from([0x3c, 0x61, 0x3e, 10, 0xc3, 0x28]), 'ENCODING', 2],
    ['an overlong sequence', Buffer.from([0x3c, 0xc0, 0xaf]), 'ENCODING', 1],
    ['half of a surrogate pair in UTF-16', Buffer.from([0xff, 0xfe, 0x00, 0xd8, 0x3c, 0]), 'ENCODING', 1],
    ['an odd byte in UTF-16', Buffer.from([0xff, 0xfe, 0x3c, 0, 0x61]), 'ENCODING', 1],
    [
      'a byte beyond ASCII',
      Buffer.from('<?xml version="1.0" encoding="us-ascii"?>\n<a>é</a>'),
      'ENCODING',
      2,
    ],
    ['UTF-32', Buffer.from([0xff, 0xfe, 0, 0, 0x3c, 0, 0, 0]), 'ENCODING', undefined],
    [
      'an encoding that is not supported',
      Buffer.from('<?xml version="1.0" encoding="EUC-JP"?><a/>'),
      'ENCODING',
      undefined,
    ],
    [
      'a name out of Object',
      Buffer.from('<?xml version="1.0" encoding="constructor"?><a/>'),
      'ENCODING',
      undefined,
    ],
    ['a false UTF-16', Buffer.from('<?xml version="1.0" encoding="UTF-16"?><a/>'), 'ENCODING', undefined],
    ['gzip', Buffer.from([0x1f, 0x8b, 8, 0]), 'ARCHIVE', undefined],
  ])('refuse %s', (_, bytes, code, line) => {
    const found = refusal(() => decode(new Uint8Array(bytes), DEFAULT_LIMITS, 'a.xml'));
    expect([found.code, found.line]).toEqual([code, line]);
    expect(found.message).toMatch(/^a\.xml: [^\n]+$/);
  });

  it('refuse more bytes than the limit', () => {
    const limits = { ...DEFAULT_LIMITS, maxBytes: 10 };
    expect(refusal(() => decode(new Uint8Array(11).fill(60), limits)).code).toBe('LIMIT');
  });
});
