import { strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { decode, encode } from '#core/musicxml/bytes/decode.js';
import { ORIGINAL_ENTRY } from '#core/musicxml/mxl/original-entry.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { HandlineError } from '#core/score/errors.js';
import { bytesOf, refusal } from './read-source.js';

const container = (path: string) =>
  strToU8(`<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`);
const SCORE = '<score-partwise/>';

function archive(more: Zippable = {}, path = 's.xml'): Uint8Array {
  return zipSync({ 'META-INF/container.xml': container(path), 's.xml': strToU8(SCORE), ...more });
}

/** The headers of the central directory, without sizes, checksums, flags and offsets. */
function listing(bytes: Uint8Array): string[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const found: string[] = [];
  for (let at = 0; at + 46 < bytes.length; at++) {
    if (view.getUint32(at, true) !== 0x02014b50) continue;
    const length = view.getUint16(at + 28, true);
    const name = Buffer.from(bytes.subarray(at + 46, at + 46 + length)).toString();
    found.push(`${name} method ${view.getUint16(at + 10, true)} date ${view.getUint32(at + 12, true)}`);
  }
  return found;
}

describe('a compressed score', () => {
  const original = bytesOf('compressed.mxl');
  const decoded = decode(original, DEFAULT_LIMITS);
  const edited = encode(decoded, [decoded.text.replace('<part ', '<!-- ✓ and some more -->\n<part ')]).bytes;

  it('is read and, unedited, comes back as it was', () => {
    expect(decoded.text).toContain('Étude für Löffel');
    expect(encode(decoded, [decoded.text]).bytes).toEqual(original);
  });

  it('keeps entries, order, methods and dates when it is edited', () => {
    expect(listing(edited).slice(0, -1)).toEqual(listing(original));
    expect(listing(edited).at(-1)).toMatch(/^META-INF\/handline-original method 0/);
    expect(listing(original)[0]).toMatch(/^mimetype method 0/);
    const [before, after] = [unzipSync(original), unzipSync(edited)];
    for (const name of Object.keys(before)) {
      if (name !== 'score/ladle.musicxml') expect(after[name]).toEqual(before[name]);
    }
    expect(decode(edited, DEFAULT_LIMITS).text).toContain('<!-- ✓ and some more -->');
  });

  it('comes back after an edit is taken back, whatever the position and method of the score', () => {
    for (const level of [0, 6] as const) {
      for (const names of [
        ['s.xml', 'META-INF/container.xml', 'b'],
        ['b', 'META-INF/container.xml', 's.xml'],
      ]) {
        const files = {
          's.xml': strToU8(SCORE),
          'META-INF/container.xml': container('s.xml'),
          b: strToU8('bb'),
        };
        const input = zipSync(
          Object.fromEntries(names.map((name) => [name, [files[name as 'b'], { level }]])),
        );
        const once = decode(input, DEFAULT_LIMITS);
        const marked = '<score-partwise>x</score-partwise>';
        const twice = decode(encode(once, [marked]).bytes, DEFAULT_LIMITS);
        expect(twice.text).toBe(marked);
        expect(Object.keys(unzipSync(twice.original))).toEqual([...names, ORIGINAL_ENTRY]);
        expect(encode(twice, [once.text], once.text)).toEqual({ bytes: input, repacked: false });
      }
    }
  });

  it('is the first of the files that the container names', () => {
    const files = ['s.xml', 'poster.pdf'].map((path) => `<rootfile full-path="${path}"/>`).join('');
    const list = strToU8(
      `<c:container xmlns:c="urn:c"><rootfiles/></c:container>`.replace(
        '<rootfiles/>',
        `<c:rootfiles>${files.replaceAll('<', '<c:')}</c:rootfiles>`,
      ),
    );
    const input = archive({ 'META-INF/container.xml': list, 'poster.pdf': strToU8('%PDF') });
    expect(decode(input, DEFAULT_LIMITS).text).toBe(SCORE);
  });

  it.each([
    ['a path from the archive’s own folder', './s.xml', 's.xml'],
    ['a percent-encoded path', 'my%20score%C3%A9.xml', 'my scoreé.xml'],
    ['a name that looks percent-encoded', 'a%20b.xml', 'a%20b.xml'],
    ['an entry from the archive’s own folder', 's.xml', './s.xml'],
    ['a path with backslashes', 'score\\s.xml', 'score/s.xml'],
  ])('is found under %s', (_, path, name) => {
    const bytes = zipSync({ 'META-INF/container.xml': container(path), [name]: strToU8(SCORE) });
    expect(decode(bytes, DEFAULT_LIMITS).text).toBe(SCORE);
  });

  it('may come after files that are none', () => {
    const others = '<rootfile full-path="s.pdf"/><rootfile full-path="s" media-type="audio/midi"/>';
    const files = strToU8(
      `<container><rootfiles>${others}<rootfile full-path="s.xml" media-type="application/vnd.recordare.musicxml+xml"/></rootfiles></container>`,
    );
    const pdf = strToU8('%PDF');
    const bytes = zipSync({ 'META-INF/container.xml': files, 's.pdf': pdf, s: pdf, 's.xml': strToU8(SCORE) });
    expect(decode(bytes, DEFAULT_LIMITS).text).toBe(SCORE);
  });

  it.each([
    ['one that is not there', '<rootfile full-path="gone.xml"/>'],
    ['one of an unknown kind', '<rootfile full-path="b"/>'],
    ['one without a path', '<rootfile full-path=""/><rootfile/>'],
  ])('may come after %s', (_, before) => {
    const files = strToU8(
      `<container><rootfiles>${before}<rootfile full-path="s.xml"/></rootfiles></container>`,
    );
    const bytes = zipSync({ 'META-INF/container.xml': files, b: strToU8('b'), 's.xml': strToU8(SCORE) });
    expect(decode(bytes, DEFAULT_LIMITS).text).toBe(SCORE);
  });

  it('is read before more bytes than a comment can have', () => {
    const bytes = Uint8Array.from([...archive(), ...new Uint8Array(100_000)]);
    expect(decode(bytes, DEFAULT_LIMITS).text).toBe(SCORE);
  });

  it('keeps bytes that somebody has added behind the archive', () => {
    const bytes = Uint8Array.from([...archive(), 13, 10, 0]);
    const marked = encode(decode(bytes, DEFAULT_LIMITS), ['<score-partwise>marked</score-partwise>']).bytes;
    expect([...marked.slice(-3)]).toEqual([13, 10, 0]);
    const again = decode(marked, DEFAULT_LIMITS);
    expect(again.text).toContain('marked');
    expect(Buffer.compare(encode(again, [SCORE], SCORE).bytes, bytes)).toBe(0);
  });

  it('leaves a file of the user’s alone that has the name of the one where the original is kept', () => {
    const own = strToU8('my own notes');
    const bytes = archive({ [ORIGINAL_ENTRY]: own });
    const marked = encode(decode(bytes, DEFAULT_LIMITS), ['<score-partwise>marked</score-partwise>']).bytes;
    expect(unzipSync(marked)[ORIGINAL_ENTRY]).toEqual(own);
    const again = decode(marked, DEFAULT_LIMITS);
    expect(encode(again, [SCORE], SCORE)).toEqual({ bytes, repacked: false });
  });

  it('is recognised as such by another program', () => {
    expect(Buffer.from(unzipSync(edited)['score/ladle.musicxml'] as Uint8Array).toString()).toContain('✓');
  });
});

describe('an archive that is refused', () => {
  const damaged = archive();
  damaged[60] = (damaged[60] as number) ^ 0xff;
  const bomb = zipSync({ 'META-INF/container.xml': container('s.xml'), 's.xml': new Uint8Array(2e8) });
  const liar = bomb.slice();
  const view = new DataView(liar.buffer);
  for (let at = 0; at + 46 < liar.length; at++) {
    if (view.getUint32(at, true) === 0x02014b50 && view.getUint16(at + 28, true) === 5)
      view.setUint32(at + 24, 99, true);
  }
  const whole = bytesOf('compressed.mxl');
  /** The archive with some 16-bit numbers of the central record of `s.xml`, and of its end, set anew. */
  const patched = (record: Readonly<Record<number, number>>, end: Readonly<Record<number, number>> = {}) => {
    const bytes = archive();
    const numbers = new DataView(bytes.buffer);
    let last = 0;
    for (let at = 0; at + 46 < bytes.length; at++) if (numbers.getUint32(at, true) === 0x02014b50) last = at;
    for (const [offset, value] of Object.entries(record))
      numbers.setUint16(last + Number(offset), value, true);
    for (const [offset, value] of Object.entries(end))
      numbers.setUint16(bytes.length - 22 + Number(offset), value, true);
    return bytes;
  };
  /** Two entries under one name, which other programs take for one or the other. */
  const twice = Buffer.from(archive({ 'S.xml': strToU8('<other/>') }));
  twice.forEach((_, at) => {
    if (twice.toString('latin1', at, at + 5) === 'S.xml') twice.write('s', at);
  });
  const many = Object.fromEntries(Array.from({ length: 4096 }, (_, at) => [`${at}`, new Uint8Array()]));

  it.each([
    ['no container', zipSync({ 's.xml': strToU8(SCORE) }), 'ARCHIVE'],
    ['an empty archive', zipSync({}), 'ARCHIVE'],
    [
      'a container that names nothing',
      zipSync({ 'META-INF/container.xml': strToU8('<container/>') }),
      'ARCHIVE',
    ],
    ['a score that is not there', archive({}, 'other.xml'), 'ARCHIVE'],
    ['a container that names a picture alone', archive({ 's.pdf': strToU8('%PDF') }, 's.pdf'), 'ARCHIVE'],
    ['a path that leaves the archive', archive({ '../evil.sh': strToU8('x') }), 'UNSAFE'],
    ['an absolute path', archive({ '/etc/passwd': strToU8('x') }), 'UNSAFE'],
    ['a path with a drive', archive({ 'C:\\x': strToU8('x') }), 'UNSAFE'],
    ['a rootfile that leaves the archive', archive({}, '../s.xml'), 'UNSAFE'],
    ['a zip bomb', bomb, 'LIMIT'],
    ['a zip bomb that lies about its size', liar, 'ARCHIVE'],
    ['a damaged entry', damaged, 'ARCHIVE'],
    ['an encrypted entry', patched({ 8: 1 }), 'ARCHIVE'],
    ['an entry compressed by another method', patched({ 10: 12 }), 'ARCHIVE'],
    ['an entry that lies elsewhere', patched({ 42: 9 }), 'ARCHIVE'],
    ['an entry longer than the archive', patched({ 22: 0x7fff }), 'ARCHIVE'],
    ['a part of several archives', patched({}, { 4: 1 }), 'ARCHIVE'],
    ['a ZIP64 archive', patched({}, { 10: 0xffff }), 'ARCHIVE'],
    ['a directory beyond the end', patched({}, { 14: 0x7fff }), 'ARCHIVE'],
    ['a name twice', new Uint8Array(twice), 'ARCHIVE'],
    ['a name of nothing', archive({ '': strToU8('x') }), 'UNSAFE'],
    ['a path out through a folder', archive({ 'a/../../x': strToU8('x') }), 'UNSAFE'],
    ['a path out by backslashes', archive({ '..\\x': strToU8('x') }), 'UNSAFE'],
    ['an absolute rootfile', archive({}, '/s.xml'), 'UNSAFE'],
    ['more entries than any score has', archive(many), 'LIMIT'],
    ['a container that is no XML', zipSync({ 'META-INF/container.xml': strToU8('s.xml') }), 'NOT_XML'],
    [
      'a container with an external entity',
      zipSync({ 'META-INF/container.xml': strToU8('<!DOCTYPE c [<!ENTITY e SYSTEM "file:///x">]><c/>') }),
      'UNSAFE',
    ],
    ['half an archive', whole.subarray(0, whole.length >> 1), 'ARCHIVE'],
    ['an archive without its last byte', whole.subarray(0, -1), 'ARCHIVE'],
  ])('%s', (_, bytes, code) => {
    const found = refusal(() => decode(bytes, DEFAULT_LIMITS, 'a.mxl'));
    expect(found.code).toBe(code);
    expect(found.message).toMatch(/^a\.mxl[^\n]+$/);
  });

  it('every truncation, and every changed byte of its directory, in bounded time and by a typed error', () => {
    for (let length = 4; length < whole.length; length += 7) {
      refusal(() => decode(whole.subarray(0, length), DEFAULT_LIMITS));
    }
    for (let at = 0; at < whole.length; at++) {
      const changed = whole.slice();
      changed[at] = (changed[at] as number) ^ 0x55;
      try {
        expect(decode(changed, DEFAULT_LIMITS).text.length).toBeGreaterThan(0);
      } catch (error) {
        expect(error).toBeInstanceOf(HandlineError);
      }
    }
  });
});
