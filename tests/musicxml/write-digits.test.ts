import { describe, expect, it } from 'vitest';
import type { DigitMark, Marks } from '#core/musicxml/marks/edit.js';
import { nested, note, score } from './write-score.js';
import { mark } from './write-source.js';

const digit = (finger: 1 | 2 | 3 | 4 | 5, more: Partial<DigitMark> = {}): DigitMark => ({
  part: 0,
  note: 0,
  finger,
  placement: 'above',
  ...more,
});

/** What marking adds to one measure, as the marked measure's lines. */
function marked(measure: string, marks: Partial<Marks>): string[] {
  const text = mark(score(measure), marks);
  const from = text.indexOf('</attributes>') + '</attributes>\n'.length;
  const bare = withoutRecord(text);
  return bare.slice(from, bare.indexOf('    </measure>')).trimEnd().split('\n');
}

/** Without the blank words that carry the record of digits where no cues stand. */
function withoutRecord(text: string): string {
  const bare = text.replace(/\s*<\?handline cue %C2%A0\?><direction[\s\S]*?<\/direction>/, '');
  expect(bare).not.toBe(text);
  return bare;
}

const FINGERING = '<fingering placement="above">3</fingering>';
const OURS = `<?handline digit 3?><notations><technical>${FINGERING}</technical></notations>`;

describe('digits', () => {
  it('get notations of their own behind everything but lyrics, playback and listening', () => {
    const beam = '<beam number="1">begin</beam>';
    const rest = '<lyric><text>la</text></lyric><play/><listen/>';
    const [line] = marked(note({ after: beam + rest }), { digits: [digit(3)] });
    expect(line).toContain(`${beam}${OURS}${rest}</note>`);
  });

  it('follow the indentation of the note', () => {
    expect(marked(nested(['<lyric><text>la</text></lyric>']), { digits: [digit(3)] }).slice(8)).toEqual([
      '        <?handline digit 3?><notations>',
      '          <technical>',
      `            ${FINGERING}`,
      '          </technical>',
      '        </notations>',
      '        <lyric><text>la</text></lyric>',
      '      </note>',
    ]);
  });

  it.each([
    [
      'LF and tabs',
      (text: string) => text.replaceAll('  ', '\t'),
      '\n\t\t\t\t<?handline digit 3?><notations>\n\t\t\t\t\t<technical>',
    ],
    [
      'CR LF',
      (text: string) => text.replaceAll('\n', '\r\n'),
      '\r\n        <?handline digit 3?><notations>\r\n          <technical>',
    ],
    [
      'CR alone',
      (text: string) => text.replaceAll('\n', '\r'),
      '\r        <?handline digit 3?><notations>\r          <technical>',
    ],
    ['a single line', (text: string) => text.replaceAll(/\n\s*/g, ''), `<staff>1</staff>${OURS}</note>`],
  ])('keep to %s', (_, change, expected) => {
    const text = withoutRecord(mark(change(score(nested())), { digits: [digit(3)] }));
    expect(text).toContain(expected);
    if (!expected.includes('\n')) expect(text).not.toMatch(/[^>]\n|>\n/);
  });

  it('go into the notations and the technical that are there', () => {
    const [inNotations] = marked(note({ after: '<notations><fermata/></notations>' }), {
      digits: [digit(3)],
    });
    expect(inNotations).toContain(
      `<notations><fermata/><?handline digit 3?><technical>${FINGERING}</technical></notations></note>`,
    );
    const technical = '<notations><technical><up-bow/></technical><fermata/></notations>';
    const [inTechnical] = marked(note({ after: technical }), { digits: [digit(3)] });
    expect(inTechnical).toContain(
      `<technical><up-bow/><?handline digit 3?>${FINGERING}</technical><fermata/></notations>`,
    );
  });

  it('go into the first notations only: many readers look at no other', () => {
    const after = '<notations><fermata/></notations><notations><technical><up-bow/></technical></notations>';
    const [line] = marked(note({ after }), { digits: [digit(3)] });
    expect(line).toContain(
      `<fermata/><?handline digit 3?><technical>${FINGERING}</technical></notations><notations>`,
    );
  });

  it('leave self-closed elements as they are and stand before them', () => {
    expect(marked(note({ after: '<notations/>' }), { digits: [digit(3)] })[0]).toContain(
      `${OURS}<notations/>`,
    );
    const after = '<notations><technical/></notations>';
    expect(marked(note({ after }), { digits: [digit(3)] })[0]).toContain(
      `<notations><?handline digit 3?><technical>${FINGERING}</technical><technical/></notations>`,
    );
  });

  it('keep out of hidden notations and of an editorial level', () => {
    const hidden = '<notations print-object="no"><technical><up-bow/></technical></notations>';
    const level = '<notations><level>II</level><technical><up-bow/></technical></notations>';
    for (const after of [hidden, level]) {
      expect(marked(note({ after }), { digits: [digit(3)] })[0]).toContain(`${after}${OURS}</note>`);
    }
  });

  it('are not misled by a ">" in an attribute or by other namespaces', () => {
    const after = '<x:notations xmlns:x="urn:x"/><notations id="a>b"></notations>';
    const [line] = marked(note({ after }), { digits: [digit(3)] });
    expect(line).toContain(
      `<x:notations xmlns:x="urn:x"/><notations id="a>b"><?handline digit 3?><technical>${FINGERING}</technical></notations>`,
    );
  });

  it('print a substitution in one text with the finger: of several, programs show one only', () => {
    const [line] = marked(note(), { digits: [digit(3, { substitution: 4, placement: 'below' })] });
    expect(line).toContain(
      '<?handline digit 3-4?><notations><technical>' +
        '<fingering placement="below">3-4</fingering></technical></notations>',
    );
  });

  it('stand each on its own chord note', () => {
    const measure = [note(), note({ before: '<chord/>', octave: 5 })].join('\n');
    const lines = marked(measure, { digits: [digit(1), digit(5, { note: 1 })] });
    expect(lines.map((line) => /<octave>(\d).*<fingering[^>]*>(\d)/.exec(line)?.slice(1))).toEqual([
      ['4', '1'],
      ['5', '5'],
    ]);
  });

  it('do not repeat a digit that the user has printed', () => {
    const after = '<notations><technical><fingering>3</fingering></technical></notations>';
    expect(mark(score(note({ after })), { digits: [digit(3)] })).toBe(score(note({ after })));
    expect(marked(note({ after }), { digits: [digit(2)] })[0]).toContain(
      '<fingering>3</fingering><?handline digit 2?>',
    );
  });

  it('do not repeat a finger and the one that takes over from it, where both are printed', () => {
    const printed = (text: string) =>
      score(note({ after: `<notations><technical><fingering>${text}</fingering></technical></notations>` }));
    const both = { digits: [digit(3, { substitution: 4 })] };
    expect(mark(printed('3-4'), both)).toBe(printed('3-4'));
    for (const other of ['3', '3-5', '4', '4-3']) expect(mark(printed(other), both)).not.toBe(printed(other));
  });

  it('take the place of the user’s digits where asked, and keep these in the file', () => {
    const user = '<fingering font-size="9">4 ?> "ü"</fingering>';
    const after = `<notations><technical>${user}</technical></notations>`;
    const [line] = marked(note({ after }), { digits: [digit(3)], replaceDigits: true });
    const kept = '%3Cfingering%20font-size%3D%229%22%3E4%20%3F%3E%20%22%C3%BC%22%3C%2Ffingering%3E';
    expect(line).toContain(
      `<technical><?handline kept ${kept}?><?handline digit 3?>${FINGERING}</technical>`,
    );
  });
});
