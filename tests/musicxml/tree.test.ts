import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { WellFormedness } from '#core/musicxml/xml/check/well-formedness.js';
import { LineIndex, positionOf } from '#core/musicxml/xml/position.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { rounds } from '../rounds.js';
import { bytesOf, READ_FIXTURES, refusal } from './read-source.js';

function descendants(element: XmlElement): XmlElement[] {
  return [element, ...element.children.flatMap(descendants)];
}

/** Start tags outside comments, CDATA, DOCTYPE and processing instructions, in order. */
function startTags(text: string): { name: string; start: number }[] {
  const blank = (piece: string) => piece.replace(/[\s\S]/g, ' ');
  const bare = text
    .replace(/<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>/g, blank)
    .replace(/<!DOCTYPE(?:\[[^\]]*\]|"[^"]*"|'[^']*'|[^>[])*>/, blank);
  return [...bare.matchAll(/<([A-Za-z][\w.:-]*)/g)].map((match) => ({
    name: match[1] as string,
    start: match.index,
  }));
}

function expectExact(text: string): void {
  const root = parseTree(text, DEFAULT_LIMITS);
  const elements = descendants(root);
  expect(elements.map(({ name, span }) => ({ name, start: span.start }))).toEqual(startTags(text));
  for (const element of elements) {
    const { start, end } = element.span;
    const source = text.slice(start, end);
    expect(source.endsWith('/>') || source.replace(/\s*>$/, '').endsWith(`</${element.name}`)).toBe(true);
    expect(parseTree(source.replace(/&\w+;/g, ''), DEFAULT_LIMITS).name).toBe(element.name);
    let last = start + 1;
    for (const child of element.children) {
      expect(child.parent).toBe(element);
      expect(child.span.start).toBeGreaterThanOrEqual(last);
      last = child.span.end;
    }
    expect(last).toBeLessThanOrEqual(end);
  }
}

describe('parseTree', () => {
  it.each(READ_FIXTURES)('gives the exact place of every element of %s', (name) => {
    expectExact(decode(bytesOf(name), DEFAULT_LIMITS).text);
  });

  it('gives the exact place of every element of generated scores', () => {
    fc.assert(
      fc.property(scoreModel, (model) => expectExact(toXml(model))),
      rounds(15, 300),
    );
  });

  it('gives the exact places in texts that are parsed in pieces', () => {
    const measure = (nth: number, end: string) =>
      `<measure number="${nth}"><?p don't?><note a="x"><rest/>${end}</note><!-- <x> --></measure>${end}`;
    const measures = (end: string) => Array.from({ length: 2400 }, (_, nth) => measure(nth, end)).join('');
    const part = (end: string) => `<part id="P">${end}${measures(end)}</part>${end}`;
    for (const end of ['', '\r\n']) {
      for (const text of [
        `<?xml version="1.0"?><!DOCTYPE s [<!ENTITY e "x">]><s><head>a &amp; b</head>${part(end)}<part/>${part(end)}<foot>z</foot></s>`,
        `<score-timewise>${end}<head>a &amp; b</head>${measures(end)}<foot>z</foot></score-timewise>`,
      ]) {
        expect(new WellFormedness(text, DEFAULT_LIMITS).check().pieces.length).toBeGreaterThan(1);
        const root = parseTree(text, DEFAULT_LIMITS);
        const elements = descendants(root);
        expect(elements.map(({ name, start }) => ({ name, start }))).toEqual(startTags(text));
        expect(elements.every(({ end: behind }) => text[behind - 1] === '>')).toBe(true);
        for (const one of elements.filter(({ name }) => name === 'measure'))
          expect(text.slice(one.start, one.end)).toBe(
            measure(Number(one.attribute('number')), end).slice(0, one.end - one.start),
          );
        expect([root.textOf('head'), root.textOf('foot')]).toEqual(['a & b', 'z']);
        expect(root.within('note').map(({ id }) => id)).toEqual(
          elements.filter(({ name }) => name === 'note').map(({ id }) => id),
        );
      }
    }
  });

  it('resolves predefined and numeric references and no others', () => {
    const root = parseTree(
      '<a b="&lt;&#65;&quot;">x&amp;lt;<!-- c -->&#x1D11E;<![CDATA[&lt;<z>]]></a>',
      DEFAULT_LIMITS,
    );
    expect(root.attribute('b')).toBe('<A"');
    expect(root.text).toBe('x&lt;\u{1d11e}&lt;<z>');
    expect(root.attribute('constructor')).toBeUndefined();
    expect(root.child('b')).toBeUndefined();
  });

  it('keeps white space and works with every line end', () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const text = ['<a', 'b = "1"', '><c>', ' x ', '</c  >', '</a>', ''].join(end);
      const child = parseTree(text, DEFAULT_LIMITS).child('c');
      expect(text.slice(child?.span.start, child?.span.end)).toBe(`<c>${end} x ${end}</c  >`);
      expect(positionOf(text, text.indexOf('</a'))).toEqual({ line: 6, column: 1 });
    }
  });

  it('is not confused by quotes and brackets in instructions, comments and the DOCTYPE', () => {
    const head = `<?p don't?><!DOCTYPE a [<!-- ' " ]> --><?q it's ]>?><!ENTITY e "]>'"><!ATTLIST a b CDATA ">">]>`;
    const text = `${head}<!-- <x> - ' --><?r "?><a><?s it's?><b/></a><?t don't?><!-- ' -->`;
    expect(descendants(parseTree(text, DEFAULT_LIMITS)).map((element) => element.name)).toEqual(['a', 'b']);
    expect(text.slice(parseTree(text, DEFAULT_LIMITS).child('b')?.span.start).startsWith('<b/>')).toBe(true);
  });

  it('leaves an entity in prose alone', () => {
    const text = '<!DOCTYPE a [<!ENTITY e "x">]><a t="&e;"><words>&e;!</words></a>';
    expect(parseTree(text, DEFAULT_LIMITS).textOf('words')).toBe('&e;!');
  });
});

const entity = (declaration: string, body: string) => `<!DOCTYPE a [${declaration}]><a>${body}</a>`;
const bomb = Array.from({ length: 9 }, (_, at) => `<!ENTITY e${at + 1} "${`&e${at};`.repeat(10)}">`).join('');

describe('what is refused', () => {
  it.each([
    ['white space only', ' \n\t ', 'EMPTY'],
    ['a byte-order mark only', '\ufeff', 'EMPTY'],
    ['plain text', 'My song', 'NOT_XML'],
    ['JSON', '{"a": 1}', 'NOT_XML'],
    ['NUL junk', '<a>\0\0</a>', 'NOT_XML'],
    ['half a surrogate pair', '<a>\n\ud83c</a>', 'NOT_XML', 2],
    ['the other half', '<a><!--\n\udfb9--></a>', 'NOT_XML', 2],
    ['a reference to no character', '<a>&#0;</a>', 'NOT_XML'],
    ['a reference to half a pair', '<a b="&#xD800;"/>', 'NOT_XML'],
    ['a reference beyond Unicode', '<a>&#x110000;</a>', 'NOT_XML'],
    ['a web page', '<!DOCTYPE html>\n<html><br></html>', 'NOT_MUSICXML'],
    ['an upper-case web page', '<HTML><BODY></HTML>', 'NOT_MUSICXML'],
    ['a comment only', '<!-- a -->', 'NOT_XML'],
    ['two roots', '<a/>\n<b/>', 'NOT_XML', 2],
    ['text behind the root', '<a/>\n\nx', 'NOT_XML', 3],
    ['an end tag of another name', '<a>\n<b></c></a>', 'NOT_XML', 2],
    ['an end tag too many', '<a/></a>', 'NOT_XML'],
    ['a missing end tag', '<a>\n<b>\n</a>', 'NOT_XML', 3],
    ['truncation in a tag', '<a>\n<b c="1"', 'NOT_XML', 2],
    ['truncation in a value', '<a>\n<b c="1', 'NOT_XML', 2],
    ['truncation in text', '<a>\n<b>1', 'NOT_XML', 2],
    ['truncation in a comment', '<a>\n<!-- x', 'NOT_XML', 2],
    ['truncation in CDATA', '<a><![CDATA[', 'NOT_XML'],
    ['truncation in the DOCTYPE', '<!DOCTYPE a [', 'NOT_XML'],
    ['an attribute without quotes', '<a b=c/>', 'NOT_XML'],
    ['an attribute without value', '<a b/>', 'NOT_XML'],
    ['an attribute twice', '<a b="1" b="2"/>', 'NOT_XML'],
    ['attributes without space', '<a b="1"c="2"/>', 'NOT_XML'],
    ['"<" in an attribute', '<a b="<"/>', 'NOT_XML'],
    ['a bare ampersand', '<a>x & y</a>', 'NOT_XML'],
    ['an entity that nobody declares', '<a>&nbsp;</a>', 'NOT_XML'],
    ['a space before the name', '< a/>', 'NOT_XML'],
    ['a second DOCTYPE', '<!DOCTYPE a><!DOCTYPE a><a/>', 'NOT_XML'],
    ['a DOCTYPE inside', '<a><!DOCTYPE a></a>', 'NOT_XML'],
    ['an external entity', entity('<!ENTITY e SYSTEM "file:///etc/passwd">', '&e;'), 'UNSAFE'],
    ['an external entity that is not used', entity('<!ENTITY e PUBLIC "p" "http://x/">', ''), 'UNSAFE'],
    ['a parameter entity', entity('<!ENTITY % e "x">', ''), 'UNSAFE'],
    ['an external parameter entity', entity('<!ENTITY % e SYSTEM "x"> %e;', ''), 'UNSAFE'],
    ['an entity bomb', entity(`<!ENTITY e0 "ha">${bomb}`, '&e9;'), 'UNSAFE'],
    ['an entity that stands for markup', entity('<!ENTITY e "<b/>">', '&e;'), 'UNSAFE'],
    ['a name that pollutes prototypes', '<a><__proto__/></a>', 'UNSAFE'],
    ['an attribute that does', '<a constructor="1"/>', 'UNSAFE'],
    ['100,000-deep nesting', '<a>'.repeat(100_000), 'LIMIT'],
  ])('%s', (_, text, code, line?: number) => {
    const found = refusal(() => parseTree(text, DEFAULT_LIMITS, 'a.xml'));
    expect(found.code).toBe(code);
    expect(found.message).toMatch(/^a\.xml: [^\n]{10,}$/);
    if (line !== undefined) expect(found.line).toBe(line);
  });

  it('nesting beyond the limit', () => {
    const limits = { ...DEFAULT_LIMITS, maxDepth: 2 };
    expect(parseTree('<a><b><c/></b></a>', limits).name).toBe('a');
    expect(refusal(() => parseTree('<a><b><c></c></b></a>', limits)).code).toBe('LIMIT');
  });

  it('nothing of the size alone: megabyte attributes, a hundred thousand attributes and entities', () => {
    const many = Array.from({ length: 100_000 }, (_, at) => ` a${at}="${at}"`).join('');
    const root = parseTree(`<a b="${'x'.repeat(5e6)}"><c${many}/></a>`, DEFAULT_LIMITS);
    expect([root.attribute('b')?.length, root.child('c')?.attributeNames.length]).toEqual([5e6, 100_000]);
    const entities = Array.from({ length: 20_000 }, (_, at) => `<!ENTITY e${at} "x">`).join('');
    expect(parseTree(entity(entities, ''), DEFAULT_LIMITS).name).toBe('a');
  });

  it('LineIndex finds every line in any order of asking', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('\n', 'a', 'b')), fc.array(fc.nat(40)), (chars, offsets) => {
        const text = chars.join('');
        const index = new LineIndex(text);
        for (const offset of offsets) {
          expect(index.lineAt(offset)).toBe(text.slice(0, offset).split('\n').length);
        }
      }),
    );
  });
});
