import { describe, expect, it } from 'vitest';
import { WellFormedness } from '#core/musicxml/xml/check/well-formedness.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';

const parse = (text: string) => parseTree(text, DEFAULT_LIMITS);
const ids = (elements: readonly XmlElement[]) => elements.map((one) => one.attribute('id'));

/** Some children of every kind: b, c, b, d; within the first c are two b. */
const CHILDREN =
  '<b id="1"> x </b><c id="2"><b id="3"><b id="4"/></b></c><!-- <b/> --><b id="5"> y </b><d id="6">&amp;</d>';
/** The same on the level of the root, where children are kept, and far below it, where they are made anew. */
const LEVELS = [
  ['of the root', parse(`<a>${CHILDREN}</a>`)],
  ['far below it', parse(`<p><q><r><s><a>${CHILDREN}</a><b/></s></r></q></p>`).within('a')[0]!],
  [
    'with a prefix',
    parse(`<m:a xmlns:m="urn:m"><b id="0"/>${CHILDREN.replace(/<(\/?)([bcd])/g, '<$1m:$2')}</m:a>`),
  ],
] as const;

describe.each(LEVELS)('the children of an element %s', (_, element) => {
  it('are found by name', () => {
    expect(element.name).toBe('a');
    expect(ids(element.all('b'))).toEqual(['1', '5']);
    expect(element.child('b')?.attribute('id')).toBe('1');
    expect(ids(element.within('b'))).toEqual(['1', '3', '4', '5']);
    expect(ids(element.within('d'))).toEqual(['6']);
    expect([element.textOf('b'), element.lastTextOf('b'), element.textOf('d')]).toEqual(['x', ' y ', '&']);
    expect(element.child('c')?.child('b')?.child('b')?.parent?.attribute('id')).toBe('3');
    expect([element.has('c'), element.child('b')?.text]).toEqual([true, ' x ']);
    for (const child of element.all('b')) expect(child.parent).toBe(element);
  });

  it('are not found where there are none', () => {
    for (const name of ['a', 'e', '']) {
      expect(ids([...element.all(name), ...element.within(name)])).toEqual([]);
      const texts = [element.child(name), element.textOf(name), element.lastTextOf(name)];
      expect([...texts, element.has(name)]).toEqual([undefined, undefined, undefined, false]);
    }
    const leaf = element.child('d')!;
    expect([leaf.children, leaf.all('b'), leaf.within('b')]).toEqual([[], [], []]);
    expect(leaf.lastExcept(new Set())).toBe(undefined);
  });

  it('have a last one but some', () => {
    expect(element.lastExcept(new Set())?.name).toBe('d');
    expect(element.lastExcept(new Set(['d']))?.attribute('id')).toBe('5');
    expect(element.lastExcept(new Set(['d', 'b', ':b']))?.name).toBe('c');
    expect(element.lastExcept(new Set(['b', 'c', 'd', ':b']))).toBe(undefined);
  });
});

describe('what an element holds', () => {
  it('attributes, in order and with references resolved', () => {
    const root = parse(`<a z='"' y="&lt;&#x41;&#66;&apos;&quot;&gt;&amp;lt;" x=""/>`);
    expect(root.attributeNames).toEqual(['z', 'y', 'x']);
    expect(root.attributeNames.map((name) => root.attribute(name))).toEqual(['"', `<AB'">&lt;`, '']);
    expect([root.attribute('w'), root.attribute('toString')]).toEqual([undefined, undefined]);
    expect(parse('<a/>').attributeNames).toEqual([]);
  });

  it('text of any length, alike or not, from around its children', () => {
    const texts = ['', 'x', 'x'.repeat(12), 'y'.repeat(13), 'z'.repeat(4096), 'z'.repeat(4097), 'x', ''];
    const root = parse(`<a>${texts.map((text) => `<b c="${text}">${text}</b>`).join('')}</a>`);
    expect(root.all('b').map(({ text }) => text)).toEqual(texts);
    expect(root.all('b').map((one) => one.attribute('c'))).toEqual(texts);
    expect(parse('<a>1<b>2</b>3<![CDATA[<&amp;]]>&#52;<![CDATA[]]></a>').text).toBe('13<&amp;4');
    expect(parse('<a> <![CDATA[1]]> \n<![CDATA[2]]>\t</a>').text).toBe(' 1 \n2\t');
    expect(parse('<a>1<!-- a --> <!-- b --> 2</a>').text).toBe('1  2');
    expect(parse('<a> \n\t</a>').text).toBe(' \n\t');
  });

  it('nothing of instructions, whatever they interrupt', () => {
    const root = parse(`<?p <b>?><a>1<?q?><?p "?>2<b c='?>'/><?a b?></a><?r ' <!--?>`);
    expect([root.text, root.children.length, root.children[0]?.name]).toEqual(['12', 1, 'b']);
  });
});

describe('a text that is parsed in pieces', () => {
  const LONG = 'x'.repeat(30_000);
  const measure = (id: number) => `<measure id="${id}"><w>${LONG}</w><?p don't?><n/></measure>`;
  const measures = (from: number, to: number) =>
    Array.from({ length: to - from }, (_, at) => measure(from + at)).join('\n');

  it.each([
    ['partwise', `<s><h/><part>${measures(0, 8)}</part>\n<part>${measures(8, 10)}</part><f>1</f></s>`, 2],
    [
      'with a part all of one piece',
      `<s><part>${measures(0, 3)}</part><part>${measures(3, 10)}</part></s>`,
      3,
    ],
    ['timewise', `<score-timewise>${measures(0, 10)}<f>1</f></score-timewise>`, 3],
  ])('has all its elements in their places: %s', (_, text, pieces) => {
    const found = new WellFormedness(text, DEFAULT_LIMITS).check().pieces;
    expect(found).toHaveLength(pieces);
    // Whole measures, and no more than one beyond the length of a piece.
    for (const { start, end } of found) {
      expect(text.slice(start, end)).toMatch(/^<measure [\s\S]*<\/measure>\s*$/);
      expect(end - start).toBeGreaterThanOrEqual(65_536);
      expect(end - start).toBeLessThan(65_536 + measure(0).length + 1);
    }
    const root = parse(text);
    const all = root.within('measure');
    expect(ids(all)).toEqual(Array.from({ length: 10 }, (_, at) => `${at}`));
    for (const [at, one] of all.entries()) {
      expect(text.slice(one.start, one.end)).toBe(measure(at));
      expect([one.children.map(({ name }) => name), one.textOf('w')]).toEqual([['w', 'n'], LONG]);
      const inner = one.child('n')!.span;
      expect(text.slice(inner.start, inner.end)).toBe('<n/>');
    }
    expect(text.slice(root.start, root.end)).toBe(text);
    expect(root.textOf('f')).toBe(text.includes('<f>') ? '1' : undefined);
    expect(root.within('_')).toEqual([]);
  });
});
