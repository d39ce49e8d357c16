import { describe, expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { attributes, note, onePart, refusal } from './read-source.js';

const SCORE = onePart([attributes() + note('C5', 4), note('D5', 4)]).replaceAll('<measure', '\n<measure');
const FIRST = '\n<measure number="1">';

/** The score with a piece before its first measure, on line 2 at the latest. */
const holding = (piece: string) => SCORE.replace(FIRST, `${piece}${FIRST}`);
const headed = (head: string) => `${head}${SCORE}`;

// What the standard calls a fatal error (XML 1.0, fifth edition; the production or section is named) is refused.
describe('ill-formed XML is refused with the line', () => {
  it.each([
    ['"]]>" in a text (2.4)', SCORE.replace('>1</voice>', '>1 ]]></voice>'), /"]]&gt;"/, 2],
    ['"]]>" between elements (2.4)', holding('\n]]>'), /"]]&gt;"/, 2],
    ['"--" in a comment (15)', holding('\n<!-- a -- b -->'), /comment holds "--"/, 2],
    ['a comment that ends in three hyphens (15)', holding('\n<!-- a --->'), /comment holds "--"/, 2],
    ['a comment without end', holding('\n<!-- a '), /comment has no end/, 2],
    ['an instruction without a name (16)', holding('\n<? a ?>'), /name of an instruction/, 2],
    ['an XML declaration behind a space (22)', headed(' <?xml version="1.0"?>\n'), /the very first/, 1],
    ['an XML declaration without a version (23)', headed('<?xml encoding="UTF-8"?>'), /XML declaration/, 1],
    [
      'an XML declaration with a bad word (32)',
      headed('<?xml version="1.0" standalone="1"?>'),
      /XML declaration/,
      1,
    ],
    ['a DOCTYPE without a name (28)', headed('\n<!DOCTYPE>'), /DOCTYPE is not well-formed/, 2],
    ['a DOCTYPE with half an identifier (75)', headed('<!DOCTYPE a PUBLIC "b">'), /DOCTYPE is not/, 1],
    ['text in a DOCTYPE (28a)', headed('<!DOCTYPE a [\n b ]>'), /declaration in the DOCTYPE/, 2],
    ['an entity with a bare "&" (9)', headed('<!DOCTYPE a [\n<!ENTITY e "b & c">]>'), /entity "e"/, 2],
    ['an entity with &#0; (66)', headed('<!DOCTYPE a [\n<!ENTITY e "&#0;">]>'), /entity "e"/, 2],
    [
      'an entity that nothing declares (4.1)',
      headed('<!DOCTYPE a [<!ENTITY e "b">]>').replace('>Piano<', '>&f;<'),
      /&f; is not declared/,
      1,
    ],
    ['a name with a sign that is no letter (4)', holding('\n<a×/>'), /not an XML name/, 2],
    ['two attributes of one name (3.1)', holding('\n<a b="" b=""/>'), /attribute b twice/, 2],
    ['"<" in an attribute (10)', holding('\n<a b="<"/>'), /holds "<"/, 2],
    ['an attribute without quotes (10)', holding('\n<a b=c/>'), /no quotes/, 2],
    ['attributes that touch (40)', holding('\n<a b=""c=""/>'), /no space before/, 2],
    ['&#0; (66)', holding('\n<a>&#0;</a>'), /character that XML does not allow/, 2],
    ['half of a character outside the BMP (66)', holding('\n<a>&#xD800;</a>'), /does not allow/, 2],
    ['NUL (2)', `\n${SCORE.replace('<part-list>', '<part-list>\u0000')}`, /does not allow/, 2],
    ['a second root (1)', `${SCORE}\n<a/>`, /follows the root/, 5],
    ['text behind the root (1)', `${SCORE}\na`, /text after the root/, 5],
    ['text before the root (1)', `a\n${SCORE}`, /text before the first/, 1],
    ['a CDATA section outside the root (1)', `${SCORE}\n<![CDATA[]]>`, /not allowed here/, 5],
    ['a DOCTYPE behind the root (22)', `${SCORE}\n<!DOCTYPE a>`, /not allowed here/, 5],
  ])('%s', (_, text, message, line) => {
    const refused = refusal(() => annotate(text, { file: 'f.musicxml' }));
    expect(refused).toMatchObject({ code: 'NOT_XML', line });
    expect(refused.message).toMatch(message);
    expect(refused.message).toMatch(/^f\.musicxml: /);
    expect(refused.message).not.toContain('\n');
  });

  it('a second byte-order mark', () => {
    const bytes = new TextEncoder().encode(`\ufeff\ufeff${SCORE}`);
    expect(refusal(() => annotate(bytes))).toMatchObject({ code: 'NOT_XML' });
    expect(() => annotate(bytes.slice(3))).not.toThrow();
  });

  it.each([
    ['an attribute list', (long: string) => `<!ATTLIST a ${long}`],
    ['values', (long: string) => `<!ATTLIST a ${'b "" '.repeat(long.length / 5)}`],
    ['an entity', (long: string) => `<!ENTITY a "${long}"`],
  ])('a DOCTYPE of millions of characters is read, and refused where it has no end: %s', (_, declare) => {
    const declaration = declare('x'.repeat(5_000_000));
    const open = refusal(() => annotate(headed(`<!DOCTYPE a [${declaration}`)));
    expect(open).toMatchObject({ code: 'NOT_XML', line: 1 });
    expect(() => annotate(headed(`<!DOCTYPE a [${declaration}>]>`))).not.toThrow();
  });

  it('an entity that stands for elements, where it is used', () => {
    const declared = headed('<!DOCTYPE a [<!ENTITY e "&#60;b/>">]>');
    expect(() => annotate(declared)).not.toThrow();
    expect(refusal(() => annotate(declared.replace('>Piano<', '>&e;<')))).toMatchObject({ code: 'UNSAFE' });
  });
});

describe('what looks ill-formed but is not', () => {
  it.each([
    ['"]]>" in an attribute', holding('<a b="]]>"/>')],
    ['"]]>" in a comment, an instruction and a CDATA section', holding('<!--]]>--><?a ]]>?><![CDATA[]]]]>')],
    ['"--" in an instruction, an attribute and a text', holding('<?a --?><b c="--">--></b>')],
    ['a comment of one hyphen and ">"', holding('<!-->-->')],
    ['leading zeros in a reference', SCORE.replace('>Piano<', '>&#x0000000041;&#000000066;<')],
    ['a name beyond Latin', holding('<\u97f3\u7b26/>')],
    ['XML 1.1', headed("<?xml version = '1.1' standalone='no' ?>")],
    [
      'a DOCTYPE with all kinds of declarations',
      headed(
        '<!DOCTYPE a [<!ELEMENT b (c|d)*><!ATTLIST b c CDATA ">"><!NOTATION e SYSTEM \'f\'><?g?><!--h--> ] >',
      ),
    ],
  ])('%s', (_, text) => {
    const { output, report } = annotate(text);
    expect(report.lines.flatMap(({ slices }) => slices)).toHaveLength(2);
    expect(output).toContain('<fingering');
  });
});
