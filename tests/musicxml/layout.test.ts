import { describe, expect, it } from 'vitest';
import {
  afterLastChild,
  indexAt,
  isSelfClosed,
  layoutBeside,
  layoutLike,
  startTagEnd,
} from '#core/musicxml/marks/layout.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';

const tree = (text: string) => parseTree(text, DEFAULT_LIMITS);
const INLINE = { newline: '', indent: '', unit: '' };

describe('tags', () => {
  it('end behind their own ">", whatever stands in quotes', () => {
    const end = (tag: string) => {
      const text = `<r>${tag}x</a></r>`;
      const [element] = tree(text).children;
      return text.slice(element!.span.start, startTagEnd(text, element!));
    };
    for (const tag of ['<a>', '<a b=">">', "<a b='>'>", `<a b='">' c=">'">`, '<a\n b="">', '<a b="" >'])
      expect(end(tag)).toBe(tag);
  });

  it('may close themselves', () => {
    const closed = (text: string) => isSelfClosed(`<r>${text}</r>`, tree(`<r>${text}</r>`).children[0]!);
    expect(['<a/>', '<a />', '<a b="/"/>'].map(closed)).toEqual([true, true, true]);
    expect(['<a></a>', '<a b="/>"></a>', '<a>/</a>'].map(closed)).toEqual([false, false, false]);
  });

  it('are found by where they begin', () => {
    const { children } = tree('<r><a/><b/><c/></r>');
    expect([2, 3, 4, 6, 7, 10, 11, 99].map((at) => indexAt(children, at))).toEqual([-1, 0, 0, 0, 1, 1, 2, 2]);
    expect(indexAt([], 5)).toBe(-1);
  });
});

describe('what is put beside an element', () => {
  /** Layout beside the only child of `<p>`. */
  const beside = (text: string) => {
    const parent = tree(text).children[0]!;
    return layoutBeside(text, parent, parent.children[0]!);
  };

  it('stands on a line of its own with the same indentation where that does', () => {
    expect(beside('<r>\n  <p>\n    <a/>\n  </p>\n</r>')).toEqual({
      newline: '\n',
      indent: '    ',
      unit: '  ',
    });
    expect(beside('<r>\n\t<p>\n\t\t<a/>\n\t</p>\n</r>')).toEqual({
      newline: '\n',
      indent: '\t\t',
      unit: '\t',
    });
    expect(beside('<r>\n   <p>\n         <a/>\n   </p>\n</r>')).toEqual({
      newline: '\n',
      indent: '         ',
      unit: '      ',
    });
    expect(beside('<r>\n<p>\n<a/>\n</p>\n</r>')).toEqual({ newline: '\n', indent: '', unit: '  ' });
  });

  it('stands beside it on its line where it has one with others', () => {
    expect(beside('<r><p><a/></p></r>')).toEqual(INLINE);
    expect(beside('<r>\n  <p> <a/></p></r>')).toEqual(INLINE);
    expect(beside('<r>\n  <p>x\n x <a/></p></r>')).toEqual(INLINE);
  });

  it('has the line ends of the file', () => {
    expect(beside('<r>\r\n <p>\r\n  <a/>\r\n </p>\r\n</r>')).toMatchObject({ newline: '\r\n', indent: '  ' });
    expect(beside('<r>\r <p>\r  <a/>\r </p>\r</r>')).toMatchObject({ newline: '\r', indent: '  ' });
    expect(beside('<r>\n <p>\n  <a/>\n </p>\n</r>')).toMatchObject({ newline: '\n', indent: '  ' });
    expect(beside('<r>\n\n <p>\n\r\n  <a/>\n </p>\n</r>')).toMatchObject({ newline: '\r\n', indent: '  ' });
  });

  it('is indented by a tab or two spaces more where its parent tells nothing', () => {
    expect(beside('<r><p>\n   <a/></p></r>')).toEqual({ newline: '\n', indent: '   ', unit: '  ' });
    expect(beside('<r><p>\n\t<a/></p></r>')).toEqual({ newline: '\n', indent: '\t', unit: '\t' });
    expect(beside('<r>\n    <p>\n    <a/></p></r>')).toEqual({ newline: '\n', indent: '    ', unit: '  ' });
    expect(beside('<r>\n\t<p>\n    <a/></p></r>')).toEqual({ newline: '\n', indent: '    ', unit: '  ' });
  });

  it('is not indented by more than 128', () => {
    const indented = (count: number) => beside(`<r>\n<p>\n${' '.repeat(count)}<a/></p></r>`);
    expect(indented(128)).toMatchObject({ newline: '\n', indent: ' '.repeat(128) });
    expect(indented(129)).toEqual(INLINE);
  });
});

describe('what is built like an element', () => {
  const like = (text: string) => {
    const [element] = tree(text).children;
    return layoutLike(text, element!, element!.span.start);
  };

  it('is spread over lines where that is', () => {
    expect(like('<r>\n  <p>\n    <a/>\n  </p>\n</r>')).toEqual({ newline: '\n', indent: '  ', unit: '  ' });
    expect(like('<r>\n\t<p>\n\t\t\t<a/>\n\t</p>\n</r>')).toEqual({
      newline: '\n',
      indent: '\t',
      unit: '\t\t',
    });
  });

  it('stands on one line where that does', () => {
    expect(like('<r>\n  <p><a/></p>\n</r>')).toEqual({ newline: '\n', indent: '  ', unit: '' });
    expect(like('<r>\n  <p/>\n</r>')).toEqual({ newline: '\n', indent: '  ', unit: '' });
    expect(like('<r><p>\n<a/></p></r>')).toEqual(INLINE);
  });
});

describe('a new last child', () => {
  /** What stands before the place, from the parent on, and how it is laid out. */
  const lastIn = (text: string, unit = '  ') => {
    const [parent] = tree(text).children;
    const { at, layout } = afterLastChild(text, parent!, unit);
    return { before: text.slice(parent!.span.start, at), layout };
  };

  it('stands behind the last one and like it', () => {
    expect(lastIn('<r>\n <p>\n  <a/>\n  <b>x</b>\n </p>\n</r>')).toEqual({
      before: '<p>\n  <a/>\n  <b>x</b>',
      layout: { newline: '\n', indent: '  ', unit: ' ' },
    });
    expect(lastIn('<r><p><a/></p></r>')).toEqual({ before: '<p><a/>', layout: INLINE });
  });

  it('in an empty element goes on a line of its own where the element opens one', () => {
    expect(lastIn('<r>\n <p>\n </p>\n</r>', '\t')).toEqual({
      before: '<p>',
      layout: { newline: '\n', indent: ' \t', unit: '\t' },
    });
    expect(lastIn('<r>\n <p> \t\r\n </p>\n</r>').layout).toMatchObject({ newline: '\n', indent: '   ' });
    expect(lastIn('<r>\n <p></p>\n</r>')).toEqual({ before: '<p>', layout: INLINE });
    expect(lastIn('<r>\n <p>x\n</p>\n</r>').layout).toEqual(INLINE);
    expect(lastIn('<r><p>\n</p></r>').layout).toEqual(INLINE);
  });
});
