import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode, encode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { FORMS } from './forms.js';
import { bytesOf, READ_FIXTURES, refusal } from './read-source.js';

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
          expect(encode(decoded, [decoded.text]).bytes).toEqual(bytes(text));
          const edited = `${head}${insertion}${body}</a>`;
          expect(encode(decoded, [edited]).bytes).toEqual(bytes(edited));
        },
      ),
      { numRuns: 800 },
    );
  });

  it.each(READ_FIXTURES)('give the fixture %s back', (name) => {
    const bytes = bytesOf(name);
    const decoded = decode(bytes, DEFAULT_LIMITS, name);
    expect(encode(decoded, [decoded.text]).bytes).toEqual(bytes);
    const back = decode(encode(decoded, [decoded.text, ' ']).bytes, DEFAULT_LIMITS, name);
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
    const written = Buffer.from(encode(decoded, [head, `<a>${insertion}</a>`]).bytes).toString('latin1');
    expect(written).toBe(`${head}<a>${expected}</a>`);
  });

  it.each([
    ['windows-1252', [0x93, 0xe9, 0x94, 0x80], '“é”€'],
    ['Windows-1251', [0xdd, 0xf2, 0xfe, 0xe4], 'Этюд'],
    ['ISO-8859-2', [0xb9, 0xf8], 'šř'],
    ['iso-8859-15', [0xa4], '€'],
    ['ISO-8859-9', [0xfd, 0xfe], 'ış'],
    ['KOI8-R', [0xfc, 0xd4], 'Эт'],
    ['macintosh', [0x8e, 0xa5], 'é•'],
    ['IBM866', [0x9d, 0xe2], 'Эт'],
  ])('read %s, and write it back with what is inserted', (declared, body, expected) => {
    const head = `<?xml version="1.0" encoding="${declared}"?><a>`;
    const bytes = Buffer.concat([Buffer.from(head), Uint8Array.from(body), Buffer.from('</a>')]);
    const decoded = decode(new Uint8Array(bytes), DEFAULT_LIMITS);
    expect(decoded.text).toBe(`${head}${expected}</a>`);
    const written = encode(decoded, [`${head}${expected}`, `${expected}𝄞</a>`]).bytes;
    const twice = [Buffer.from(head), Uint8Array.from([...body, ...body]), Buffer.from('&#x1D11E;</a>')];
    expect(Buffer.compare(written, Buffer.concat(twice))).toBe(0);
  });

  it('every byte of every encoding of one byte a character comes back, or is refused', () => {
    const parts = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 14, 15].map((part) => `iso-8859-${part}`);
    const windows = [874, 1250, 1251, 1252, 1253, 1254, 1255, 1256, 1257, 1258].map(
      (page) => `windows-${page}`,
    );
    let [kept, refused] = [0, 0];
    for (const declared of [...parts, ...windows, 'koi8-r', 'koi8-u', 'macintosh', 'ibm866', 'us-ascii']) {
      const head = Buffer.from(`<?xml version="1.0" encoding="${declared}"?>`);
      for (let byte = 0; byte < 256; byte++) {
        const bytes = new Uint8Array([...head, byte]);
        let decoded: ReturnType<typeof decode>;
        try {
          decoded = decode(bytes, DEFAULT_LIMITS);
        } catch (error) {
          expect(error).toMatchObject({ code: 'ENCODING' });
          expect(byte).toBeGreaterThan(0x7f);
          refused += 1;
          continue;
        }
        expect(encode(decoded, [decoded.text, ' ']).bytes).toEqual(new Uint8Array([...bytes, 32]));
        kept += 1;
      }
    }
    // All of US-ASCII's upper half, and the few bytes that stand for nothing elsewhere.
    expect(refused).toBeGreaterThan(128);
    expect(kept).toBeGreaterThan(7 * refused);
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
