import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkOf,
  type HeadRecord,
  mayHaveToken,
  readToken,
  recordable,
  restorable,
  tokenName,
  writeHeads,
} from '#core/musicxml/marks/record/token.js';

describe('the check of a text', () => {
  // Fowler, Noll and Vo, FNV-1a test vectors, 32 bits (from memory): "", "a", "foobar".
  it.each([
    ['', 0x811c9dc5],
    ['a', 0xe40c292c],
    ['foobar', 0xbf9cf968],
  ])('"%s"', (text, hash) => {
    expect(checkOf(text)).toBe(hash.toString(36));
    expect(tokenName(text)).toBe(`handline-${hash.toString(36)}`);
  });

  it('leaves white space out, and nothing else', () => {
    expect(checkOf(' foo\n\t bar\u00a0')).toBe(checkOf('foobar'));
    for (const other of ['foobaR', 'foobra', 'foobar.']) expect(checkOf(other)).not.toBe(checkOf('foobar'));
    expect(checkOf('\u{1d11e}')).not.toBe(checkOf('\u{1d11f}'));
  });
});

describe('a record in words', () => {
  const record = (pitch: number, written?: string, ...kept: string[]): HeadRecord => ({
    pitch,
    written,
    kept: kept.length > 0 ? kept.map((text) => `<fingering>${text}</fingering>`) : undefined,
  });

  it.each<[string, HeadRecord[], HeadRecord[]]>([
    ['', [], []],
    ['.a3', [], [record(0, '3')]],
    ['.l5', [], [record(11, '5')]],
    ['.c5-4', [], [record(2, '5-4')]],
    ['.cA2', [], [record(2, 'A2')]],
    ['.g1!2!', [], [record(6, '1', '2')]],
    ['.g1!2!!3!', [], [record(6, '1', '2', '3')]],
    ['.ac3', [], [record(0), record(2, '3')]],
    // Behind the last digit of ours nothing is told.
    ['.c3', [], [record(2, '3'), record(4), record(5)]],
    ['', [record(2)], [record(4)]],
    ['.a1.', [record(0, '1')], []],
    ['.a1.b2', [record(0, '1')], [record(1, '2')]],
    ['.a1.', [record(0, '1'), record(3)], [record(1)]],
  ])('%s', (text, before, from) => {
    const written = text === '' ? '' : `.n12${text}`;
    expect(writeHeads(12, before, from)).toBe(written);
    const token = readToken(`handline-1a${written}`);
    const told = (heads: readonly HeadRecord[]) =>
      heads
        .slice(0, heads.findLastIndex(({ written }) => written !== undefined) + 1)
        .map(({ pitch, written, kept }) => ({ pitch, written, kept: kept ?? undefined }));
    expect(token).toEqual({ check: '1a', all: text === '' ? 0 : 12, before: told(before), from: told(from) });
  });

  it('keeps the user’s digits in whatever letters, of which a font’s name has but a few', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', minLength: 1 }), (text) => {
        // What a text in XML cannot hold is not told of.
        fc.pre(!/[<&\p{Surrogate}]/u.test(text));
        const kept = [`<fingering>${text}</fingering>`];
        const words = writeHeads(1, [], [{ pitch: 0, written: '1', kept }]);
        expect(words).toMatch(/^\.n1\.a1![\w-]*!$/);
        expect(readToken(`handline-0${words}`)?.from[0]?.kept).toEqual(kept);
      }),
    );
    const placed = '<fingering placement="below">3</fingering>';
    const words = writeHeads(1, [], [{ pitch: 0, written: '1', kept: [placed] }]);
    expect(readToken(`handline-0${words}`)?.from[0]?.kept).toEqual([placed]);
  });

  it('is read up to where it breaks off', () => {
    const pitches = (text: string) => readToken(`handline-0.${text}`)?.from.map(({ pitch }) => pitch);
    expect(pitches('a1b2c3')).toEqual([0, 1, 2]);
    expect(pitches('a1b2m3')).toEqual([0, 1]);
    expect(pitches('a1b6c3')).toEqual([0, 1]);
    expect(pitches('a1!2')).toEqual([0]);
    // A digit of the user's that cannot be read is left out.
    expect(readToken('handline-0.a1!_zz!!2!')?.from[0]?.kept).toEqual(['<fingering>2</fingering>']);
  });
});

describe('a list of fonts', () => {
  it.each([
    ['handline-k3', 'k3'],
    ['Times, handline-k3', 'k3'],
    ['Times,handline-k3', 'k3'],
    ['Times, handline-k3 , Arial', 'k3'],
    [' handline-0123456 ', '0123456'],
    ['handline-k3.a1', 'k3'],
    ['handline-k3.a1.b2,serif', 'k3'],
    ['Times', undefined],
    ['handline-', undefined],
    ['handline-01234567', undefined],
    ['handline-K3', undefined],
    ['my handline-k3', undefined],
    ['handline-k3 bold', undefined],
    ['handline-k3.a1.b2.c3', undefined],
    [undefined, undefined],
  ])('"%s" has our name with check %s', (family, check) => {
    expect(readToken(family)?.check).toBe(check);
    if (check !== undefined) expect(mayHaveToken(`<words font-family="${family}">`)).toBe(true);
  });

  it('without our name is passed over', () => {
    expect(mayHaveToken('<words font-family="Times">handline</words>')).toBe(false);
  });
});

describe('a digit of the user’s', () => {
  it.each([
    ['<fingering>3</fingering>', '<fingering>3</fingering>'],
    ['<fingering/>', '<fingering/>'],
    ['<fingering />', '<fingering />'],
    ['<fingering placement="below">3</fingering>', '<fingering placement="below">3</fingering>'],
    [`<fingering a='1' b-c="2">3</fingering >`, `<fingering a='1' b-c="2">3</fingering >`],
    ['<fingering>&lt;3&#62;&amp;</fingering>', '<fingering>&lt;3&#62;&amp;</fingering>'],
    ['<fingering>&#x1d11e;</fingering>', '<fingering>&#x1d11e;</fingering>'],
    // What only its own file understands goes: entities, comments, instructions, elements.
    ['<fingering>3&mine;</fingering>', '<fingering>3&amp;mine;</fingering>'],
    ['<fingering>3<!-- or 4 --></fingering>', '<fingering>3</fingering>'],
    ['<fingering><?x y?>3</fingering>', '<fingering>3</fingering>'],
    ['<fingering><![CDATA[3]]></fingering>', '<fingering>3</fingering>'],
    ['<fingering><b>3</b></fingering>', '<fingering>3</fingering>'],
    ['<fingering><![CDATA[3<4>5]]></fingering>', '<fingering>3&lt;4>5</fingering>'],
    ['<fingering><![CDATA[<!--3&amp;-->]]></fingering>', '<fingering>&lt;!--3&amp;amp;--></fingering>'],
    ['<fingering>3<!--<![CDATA[4]]>--></fingering>', '<fingering>3</fingering>'],
  ])('%s is recorded as %s, and can be put back', (source, expected) => {
    expect(recordable(source, '')).toBe(expected);
    expect(restorable(expected, '')).toBe(expected);
  });

  it('loses the prefix of its own file and takes that of another', () => {
    const plain = '<fingering x="m:y">m:3</fingering>';
    const prefixed = '<m:fingering x="m:y">m:3</m:fingering>';
    expect(recordable(prefixed, 'm:')).toBe(plain);
    expect(restorable(plain, 'm:')).toBe(prefixed);
    expect(restorable('<fingering/>', 'm:')).toBe('<m:fingering/>');
  });

  it.each([
    '<fingering>3',
    '<fingering>3</fingering>x',
    'x<fingering>3</fingering>',
    '<fingering><b/></fingering>',
    '<fingering>&mine;</fingering>',
    '<fingering a="&mine;">3</fingering>',
    '<fingering a="<">3</fingering>',
    '<fingering a=3>3</fingering>',
    '<pluck>3</pluck>',
    '<fingerings>3</fingerings>',
    '3',
    '',
  ])('is not put back from %s', (source) => {
    expect(restorable(source, '')).toBeUndefined();
  });
});
