import { describe, expect, it } from 'vitest';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { refusal } from '../read-source.js';

const TRUNCATED = 'has no end; the file seems to be truncated';

/** Where and why a text is refused: all that is said behind the file's name. */
const said = (text: string, limits = DEFAULT_LIMITS) =>
  refusal(() => parseTree(text, limits, 'f.xml')).message.replace(/^f\.xml: /, '');

describe('what is said of ill-formed XML, and of which place', () => {
  it.each([
    // Around the root.
    ['\n a<b/>', 'line 2, column 2: there is text before the first element; this is not MusicXML'],
    ['<b/>\r\n\ta', 'line 2, column 2: there is text after the root element; this is not MusicXML'],
    ['&#65;<b/>', 'line 1, column 1: there is text before the first element; this is not MusicXML'],
    ['<b/>&', 'line 1, column 5: a bare "&" must be written as "&amp;"'],
    ['<b/>\r<c/>', 'line 2, column 1: <c> follows the root element'],
    ['<!-- -->\n<?p?>', 'line 1, column 1: holds no XML element; give a MusicXML file'],
    ['<a>\n<b>\n', 'line 3, column 1: <b> is not closed; the file seems to be truncated'],
    ['<a>x\u0001</a>', 'line 1, column 5: holds a character that XML does not allow; it is not MusicXML'],
    // Tags.
    ['<a><b', `line 1, column 4: <b ${TRUNCATED}`],
    ['<a><b ', `line 1, column 4: <b ${TRUNCATED}`],
    ['<a><b c="1"', `line 1, column 4: <b ${TRUNCATED}`],
    ['<a>\n <b c="1"d="2"/></a>', 'line 2, column 10: <b> has no space before an attribute'],
    ['<a>\n <b c="1" c=""/></a>', 'line 2, column 11: <b> has the attribute c twice'],
    ['<a>\n <b c/></a>', 'line 2, column 6: an attribute of <b> has no value'],
    ['<a>\n <b c = 1/></a>', 'line 2, column 9: an attribute of <b> has no quotes'],
    ['<a>\n <b c="1/></a>', 'line 2, column 7: an attribute of <b> has no closing quote'],
    ['<a>\n <b c="1<2"/></a>', 'line 2, column 9: an attribute of <b> holds "<"'],
    [`<a>\n <b c='<'/></a>`, 'line 2, column 8: an attribute of <b> holds "<"'],
    ['<a>\n <b c="1&2"/></a>', 'line 2, column 9: a bare "&" must be written as "&amp;"'],
    ['<a>\n <b c="&">1</b></a>', 'line 2, column 8: a bare "&" must be written as "&amp;"'],
    ['<a><b / ></a>', 'line 1, column 7: "<" is not an XML name'],
    ['<a>\n< b/></a>', 'line 2, column 1: "<" is not an XML name'],
    ['<a>\n<1/></a>', 'line 2, column 1: "<1" is not an XML name'],
    [`<a><${'1'.repeat(21)}/></a>`, `line 1, column 4: "<${'1'.repeat(20)}" is not an XML name`],
    ['<a><b 1="2"/></a>', 'line 1, column 7: "<1" is not an XML name'],
    ['<a><b></c></a>', 'line 1, column 7: </c> does not match: <b> is open'],
    ['<a><b></bc></a>', 'line 1, column 7: </bc> does not match: <b> is open'],
    ['<a><b></b/></a>', 'line 1, column 7: </b> does not match: <b> is open'],
    ['<a/>\n</a>', 'line 2, column 1: </a> does not match: nothing is open'],
    ['<a/></undefined>', 'line 1, column 5: </undefined> does not match: nothing is open'],
    ['<a></a', `line 1, column 4: </a ${TRUNCATED}`],
    ['<a></', `line 1, column 4: </ ${TRUNCATED}`],
    ['<a><constructor/></a>', 'line 1, column 4: the name "constructor" is refused'],
    ['<a><b prototype="1">2</b></a>', 'line 1, column 7: the name "prototype" is refused'],
    ['<a><__proto__>1</__proto__></a>', 'line 1, column 4: the name "__proto__" is refused'],
    // References and what a text may not hold.
    ['<a>1 & 2</a>', 'line 1, column 6: a bare "&" must be written as "&amp;"'],
    ['<a>&#x;</a>', 'line 1, column 4: a bare "&" must be written as "&amp;"'],
    ['<a>&amp;&#12345678;</a>', 'line 1, column 9: a bare "&" must be written as "&amp;"'],
    [
      '<a>&#1114111;&#1114112;</a>',
      'line 1, column 14: a reference names a character that XML does not allow',
    ],
    ['<a>&#xfffd;&#xfffe;</a>', 'line 1, column 12: a reference names a character that XML does not allow'],
    ['<a>&#9;&#8;</a>', 'line 1, column 8: a reference names a character that XML does not allow'],
    ['<a><words>&e;</words></a>', 'line 1, column 11: the entity &e; is not declared'],
    ['<a>\n]]></a>', 'line 2, column 1: "]]>" in a text must be written as "]]&gt;"'],
    ['<a>\n<b>]]></b></a>', 'line 2, column 4: "]]>" in a text must be written as "]]&gt;"'],
    ['<a>\n<b>1</b>]]></a>', 'line 2, column 9: "]]>" in a text must be written as "]]&gt;"'],
    // Declarations, comments, instructions.
    ['<a>\n<!-- b -- c --></a>', 'line 2, column 8: a comment holds "--", which XML does not allow'],
    ['<a>\n<!--></a>', `line 2, column 1: a comment ${TRUNCATED}`],
    ['<a>\n<![CDATA[ ]] ></a>', `line 2, column 1: a CDATA section ${TRUNCATED}`],
    ['<![CDATA[]]><a/>', 'line 1, column 1: a declaration is not allowed here'],
    ['<a><!ELEMENT b ANY></a>', 'line 1, column 4: a declaration is not allowed here'],
    ['<!DOCTYPE a>\n<!DOCTYPE a><a/>', 'line 2, column 1: a declaration is not allowed here'],
    ['<a>\n<?b</a>', `line 2, column 1: a processing instruction ${TRUNCATED}`],
    ['<a>\n<?b?', `line 2, column 1: a processing instruction ${TRUNCATED}`],
    ['<a><?1 b?></a>', 'line 1, column 4: "<?1" is not the name of an instruction'],
    [
      `<a><?${'!'.repeat(21)}?></a>`,
      `line 1, column 4: "<?${'!'.repeat(20)}" is not the name of an instruction`,
    ],
    [
      '<a><?XmL b?></a>',
      'line 1, column 4: an XML declaration is not allowed here; it must be the very first',
    ],
    [
      '\n<?xml version="1.0"?><a/>',
      'line 2, column 1: an XML declaration is not allowed here; it must be the very first',
    ],
    ['<?xml version="2.0"?><a/>', 'line 1, column 1: the XML declaration is not well-formed'],
    [`<?xml version="1.0'?><a/>`, 'line 1, column 1: the XML declaration is not well-formed'],
  ])('%j', (text, expected) => {
    expect(said(text)).toBe(expected);
  });

  it('one element too deep, with children or without', () => {
    const limits = { ...DEFAULT_LIMITS, maxDepth: 2 };
    const message = 'line 2, column 1: elements are nested deeper than 2 (limits.maxDepth)';
    expect(said('<a><b>\n<c>1</c></b></a>', limits)).toBe(message);
    expect(said('<a><b>\n<c></c></b></a>', limits)).toBe(message);
    expect(said('<a><b>\n<c><d/></c></b></a>', limits)).toBe(message);
    expect(parseTree('<a><b>1</b><b/><b><c/></b></a>', limits).all('b')).toHaveLength(3);
  });

  it('whole files that are none', () => {
    expect(said('\ufeff \n')).toBe('is empty; give a MusicXML file');
    const page = 'is a web page, not a score; export the score as MusicXML';
    for (const text of ['<html lang="en">', ' <!doctype  HTML>', '\ufeff<!-- a -->\n<html/>'])
      expect(said(text)).toBe(page);
    expect(parseTree('<htmls/>', DEFAULT_LIMITS).name).toBe('htmls');
    expect(parseTree('<a><html/></a>', DEFAULT_LIMITS).child('html')?.start).toBe(3);
  });

  it('no name of a file where none was given', () => {
    expect(refusal(() => parseTree('<a>\n<b></a>', DEFAULT_LIMITS)).message).toBe(
      'line 2, column 4: </a> does not match: <b> is open',
    );
  });
});

describe('what is said of a DOCTYPE, and of which place', () => {
  const head = (subset: string) => `<!DOCTYPE a [\n${subset}]><a><words>&e;</words></a>`;

  it.each([
    ['<!DOCTYPE a', `line 1, column 1: the DOCTYPE ${TRUNCATED}`],
    ['\n<!DOCTYPE a [\n<!ELEMENT b ANY>\n', `line 2, column 1: the DOCTYPE ${TRUNCATED}`],
    ['\n<!DOCTYPE a b><a/>', 'line 2, column 1: the DOCTYPE is not well-formed'],
    ['<!DOCTYPE a PUBLIC "é" "b"><a/>', 'line 1, column 1: the DOCTYPE is not well-formed'],
    [head(' b '), 'line 2, column 2: a declaration in the DOCTYPE cannot be read'],
    [head('<!ELEMENT b <'), 'line 2, column 1: a declaration in the DOCTYPE cannot be read'],
    [head('<!ATTLIST b c CDATA ">'), 'line 2, column 1: a declaration in the DOCTYPE cannot be read'],
    [head('<!ELEMENTS b ANY>'), 'line 2, column 1: a declaration in the DOCTYPE cannot be read'],
    [head(' <!-- b -- c -->'), 'line 2, column 9: a comment holds "--", which XML does not allow'],
    [head(' <?1?>'), 'line 2, column 2: "<?1" is not the name of an instruction'],
    [
      head(' %e;'),
      'line 2, column 2: parameter entities are not expanded; write their content into the file',
    ],
    [head('<!ENTITY e>'), 'line 2, column 1: an entity declaration cannot be read'],
    [
      head('<!ENTITY % e "b">'),
      'line 2, column 1: parameter entity "e" is not expanded; remove it from the DOCTYPE',
    ],
    [
      head(' <!ENTITY e SYSTEM "b">'),
      'line 2, column 2: external entity "e" is not read; remove it from the DOCTYPE',
    ],
    [
      head('<!ENTITY e PUBLIC "b" "c">'),
      'line 2, column 1: external entity "e" is not read; remove it from the DOCTYPE',
    ],
    [
      head('<!ENTITY e "&f;">'),
      'line 2, column 1: entity "e" is built from other entities; remove it from the DOCTYPE',
    ],
    [
      head(`<!ENTITY e '%f;'>`),
      'line 2, column 1: entity "e" is built from other entities; remove it from the DOCTYPE',
    ],
    [
      head('<!ENTITY e "b & c">'),
      'line 2, column 1: entity "e" is not well-formed: its value holds what no text may',
    ],
    [
      head('<!ENTITY e "5 %">'),
      'line 2, column 1: entity "e" is not well-formed: its value holds what no text may',
    ],
    [
      head('<!ENTITY e "]]>">'),
      'line 2, column 1: entity "e" is not well-formed: its value holds what no text may',
    ],
    [
      head('<!ENTITY e "&#65;&#x1;">'),
      'line 2, column 1: entity "e" is not well-formed: its value holds what no text may',
    ],
    [
      head('<!ENTITY e "<b/>">'),
      'line 2, column 31: &e; in <words> is not expanded; write its content into the file',
    ],
    [
      head('<!ENTITY e "&#x3C;">'),
      'line 2, column 33: &e; in <words> is not expanded; write its content into the file',
    ],
    [head('<!ENTITY f "b">'), 'line 2, column 28: the entity &e; is not declared'],
    [
      head('<!ENTITY e "b">').replaceAll('words', 'step'),
      'line 2, column 27: &e; in <step> is not expanded; write its content into the file',
    ],
    [
      '<!DOCTYPE a [<!ENTITY e "b">]>&e;<a/>',
      'line 1, column 31: &e; in <> is not expanded; write its content into the file',
    ],
  ])('%j', (text, expected) => {
    expect(said(text)).toBe(expected);
  });

  it.each([
    ['no subset', '<!DOCTYPE a>', ''],
    ['the first of two declarations', '<!DOCTYPE a [<!ENTITY e "b"><!ENTITY e "<c/>">]>', '&e;'],
    ['a DTD outside the file, which may declare any', '<!DOCTYPE a SYSTEM "b">', '&e;'],
    ['one with a name', `<!DOCTYPE a PUBLIC '-//B' 'c' [ ] >`, '&e;'],
    ['references to characters', '<!DOCTYPE a [<!ENTITY e "&#65;&amp;">]>', '&e;'],
    ['quoted delimiters', `<!DOCTYPE a [<!ATTLIST b c CDATA "'>" d CDATA '">'>]>`, ''],
    ['a comment and an instruction', '<!DOCTYPE a [<!--]>--><?b ]>?>]>', ''],
  ])('is nothing with %s', (_, doctype, text) => {
    const root = parseTree(`${doctype}<a b="${text}"><words>${text}</words></a>`, DEFAULT_LIMITS);
    expect([root.textOf('words'), root.attribute('b'), root.start]).toEqual([text, text, doctype.length]);
  });
});
