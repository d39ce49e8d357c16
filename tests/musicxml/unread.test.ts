import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { writeMarks } from '#core/musicxml/marks/write.js';
import { readScore } from '#core/musicxml/read/score.js';
import { withoutUnread } from '#core/musicxml/xml/skip-unread.js';
import { parseScoreTree, parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { Finger } from '#core/score/model.js';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { rounds } from '../rounds.js';
import { attributes, bytesOf, onePart, READ_FIXTURES } from './read-source.js';

/** Everything that a reading of the text finds, and what marks on all its notes would change. */
function outcome(text: string, parse: typeof parseTree): unknown {
  const read = readScore(parse(text, DEFAULT_LIMITS), text, { limits: DEFAULT_LIMITS });
  const places = read.score.parts.flatMap(({ notes }, part) => notes.map((_, note) => ({ part, note })));
  const digits = places.map((place, nth) => ({
    ...place,
    finger: ((nth % 5) + 1) as Finger,
    placement: 'above' as const,
  }));
  const cues = places.map((place) => ({ ...place, text: 'in', placement: 'below' as const }));
  return {
    score: read.score,
    warnings: read.warnings,
    spans: read.elements.map((part) => part.map(({ span }) => span)),
    edits: [false, true].map((replaceDigits) => writeMarks(text, read, { digits, cues, replaceDigits })),
  };
}

function expectAlike(text: string): void {
  expect(outcome(text, parseScoreTree)).toEqual(outcome(text, parseTree));
}

/** Children of a note as some program may write them: most in order, some missing, doubled, empty or out of place. */
const CHILDREN = [
  '<grace/>',
  '<chord/>',
  '<pitch>#<step>C</step>#<octave>4</octave>#</pitch>',
  '<rest/>',
  '<duration>4</duration>',
  '<duration>0</duration>',
  '<duration>-2</duration>',
  '<duration> 4x</duration>',
  '<tie type="start"/>',
  '<voice>2</voice>',
  '<voice>           </voice>',
  '<type>quarter</type>',
  '<type size="cue">half</type>',
  '<type>          </type>',
  '<type/>',
  '<dot/>',
  '<accidental cautionary="yes">sharp</accidental>',
  '<stem default-y="3">up</stem>',
  '<stem a=">">down</stem>',
  '<stem a="/">down</stem >',
  '<notehead>x</notehead>',
  '<staff>1</staff>',
  '<beam number="1">begin</beam>',
  '<beam number="2"><!-- <type>half</type> -->begin</beam>',
  '<beam><type>half</type></beam>',
  '<unknown/>',
  '<notations>#<technical>#<fingering>2</fingering>#</technical>#</notations>',
  '<notations/>',
  '<notations print-object="no"><slur type="start" number="1"/></notations>',
  '<lyric>#<text>        </text>#</lyric>',
  'text > text',
  'text >',
  '<!-- <stem>up</stem>          <beam>begin</beam> -->',
  '<![CDATA[</voice>          <type>half</type>]]>',
];
const GAPS = ['', '\n        ', '\r\n\t\t', ' ', '          '];

const noteText = fc
  .record({
    children: fc.subarray(CHILDREN, { minLength: 3 }),
    moved: fc.option(fc.tuple(fc.nat(20), fc.nat(20)), { freq: 3 }),
    gaps: fc.array(fc.constantFrom(...GAPS), { minLength: 1, maxLength: 4 }),
  })
  .map(({ children, moved, gaps }) => {
    const all = [...children];
    const [one = ''] = moved === null ? [] : all.splice(moved[0] % all.length, 1);
    if (moved !== null) all.splice(moved[1] % (all.length + 1), 0, one);
    let nth = 0;
    const gap = () => gaps[nth++ % gaps.length] as string;
    const inside = all.map((child) => gap() + child.replaceAll('#', gap)).join('');
    return `${gap()}<note>${inside}${gap()}</note>`;
  });

describe('what reading passes over', () => {
  it('makes no difference to notes however odd', () => {
    fc.assert(
      fc.property(fc.array(noteText, { minLength: 1, maxLength: 3 }), (notes) => {
        expectAlike(onePart([attributes() + notes.join('')]));
      }),
      rounds(1000),
    );
  });

  it('makes no difference to generated scores', () => {
    fc.assert(
      fc.property(scoreModel, (model) => expectAlike(toXml(model))),
      rounds(50),
    );
  });

  it.each(READ_FIXTURES)('makes no difference to %s', (name) => {
    expectAlike(decode(bytesOf(name), DEFAULT_LIMITS).text);
  });

  it('is hidden, and nothing else', () => {
    const looks =
      '<type>quarter</type> <accidental>sharp</accidental> <stem>up</stem> <staff>1</staff> <beam>begin</beam>';
    const text = onePart([
      `<note>\n          <pitch>          <step>C</step><octave>4</octave></pitch> <duration>4</duration> ${looks} </note>`,
    ]);
    const names = ({ name, children }: XmlElement): string[] => [name, ...children.flatMap(names)];
    const [note] = parseScoreTree(text, DEFAULT_LIMITS).child('part')?.child('measure')?.children ?? [];
    expect(note && names(note)).toEqual(['note', 'pitch', 'step', 'octave', 'duration', 'staff']);
    const shown = withoutUnread(text);
    expect(shown).toHaveLength(text.length);
    expect(shown.replaceAll(/<!-- *-->/g, (comment) => ' '.repeat(comment.length))).toBe(
      text.replaceAll(/<(type|accidental|stem|beam)>[^<]*<\/\1>|\s{7,}/g, (hidden) =>
        ' '.repeat(hidden.length),
      ),
    );
  });

  it('stays where a note has no duration to be read by', () => {
    const text = onePart([
      '<note><rest/><type>quarter</type><staff>1</staff></note><note><rest/><duration>1</duration></note>',
    ]);
    expect(withoutUnread(text)).toBe(text);
  });
});
