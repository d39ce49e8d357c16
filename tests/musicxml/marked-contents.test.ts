import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { AnnotateOptions } from '#core/options/options.js';
import { attributes, backup, bytesOf, note, onePart, rest } from './read-source.js';

const fixture = (name: string) => decode(bytesOf(name), DEFAULT_LIMITS).text;

/** Marks a score, sees that it comes back, and tells hand and number of digits of every line. */
function marked(text: string, options: AnnotateOptions = {}) {
  const { output, report } = annotate(text, { density: 'every', ...options });
  expect(clear(output)).toEqual({ output: text, warnings: [] });
  const lines = report.lines.map(({ part, hand, fingered }) => `${part} ${hand} ${fingered}`);
  return { output, lines, codes: report.warnings.map(({ code }) => code) };
}

/** Every `<note>` of a text with the digits of ours in it. */
function digits(text: string): number[] {
  return (text.match(/<note\b[\s\S]*?<\/note>/g) ?? []).map(
    (one) => one.split('<?handline digit').length - 1,
  );
}

/** A score of several parts around the content of their one measure. */
function score(parts: Readonly<Record<string, string>>): string {
  const names = Object.keys(parts);
  const list = names.map((name, at) => `<score-part id="P${at}"><part-name>${name}</part-name></score-part>`);
  const music = names.map(
    (name, at) => `<part id="P${at}"><measure number="1">${parts[name]}</measure></part>`,
  );
  return `<score-partwise version="4.0"><part-list>${list.join('')}</part-list>${music.join('')}</score-partwise>`;
}

const partsOf = (text: string) => text.match(/<part id[\s\S]*?<\/part>/g) ?? [];
const staff = (number: number, pitch: string, length = 16) =>
  note(pitch, length, { staff: number, voice: `${number}` });

describe('what is marked, and what is left alone', () => {
  it('parts of other instruments keep every character', () => {
    const text = fixture('transposed.musicxml');
    const { output, lines } = marked(text);
    expect(lines).toEqual(['P2 right 2', 'P2 left 1']);
    const [before, after] = [partsOf(text), partsOf(output)];
    expect([after[0], after[2]]).toEqual([before[0], before[2]]);
    expect(digits(after[1] as string)).toEqual([1, 1, 1]);
  });

  it('percussion and tablature parts are left alone, even where they are asked for', () => {
    const clef = (sign: string) =>
      `<attributes><divisions>4</divisions><clef><sign>${sign}</sign></clef></attributes>`;
    const unpitched =
      '<note><unpitched><display-step>C</display-step></unpitched><duration>16</duration></note>';
    const text = score({
      Drums: clef('percussion') + unpitched,
      Lute: clef('TAB') + note('C4', 16),
      Piano: attributes() + note('C4', 16),
    });
    const { output, lines } = marked(text);
    expect(lines).toEqual(['P2 right 1']);
    expect(partsOf(output).slice(0, 2)).toEqual(partsOf(text).slice(0, 2));
    const forced = marked(text, { parts: ['P0', 'P1'] });
    expect(forced.output).toBe(text);
    expect(forced.codes).toEqual(['EMPTY_SELECTION']);
  });

  it('ossia, cue-sized and percussion staves, cue notes and hidden ones within a piano part', () => {
    const change = (content: string) => `<attributes>${content}</attributes>`;
    const type = (name: string) =>
      change(`<staff-details number="3"><staff-type>${name}</staff-type></staff-details>`);
    const clef = (sign: string) => change(`<clef number="3"><sign>${sign}</sign></clef>`);
    const third = staff(3, 'G4', 4);
    const measure = [
      attributes(4, 3),
      note('C5', 4),
      note('D5', 4, { lead: '<cue/>' }),
      note('E5', 4).replace('<note>', '<note print-object="no">'),
      rest(4),
      backup(16),
      type('ossia') + third,
      type('cue') + third,
      type('regular') + clef('percussion') + third,
      clef('TAB') + third,
    ];
    const { output } = marked(onePart([measure.join('')]));
    expect(digits(output)).toEqual([1, 0, 0, 0, 0, 0, 0, 0]);
  });

  it('three staves are shared out by their clefs, or as the option says', () => {
    const clefs = ['G', 'G', 'F']
      .map((sign, at) => `<clef number="${at + 1}"><sign>${sign}</sign></clef>`)
      .join('');
    const measure = [staff(1, 'G5'), staff(2, 'G4'), staff(3, 'C4')].join(backup(16));
    const text = onePart([`${attributes(4, 3)}<attributes>${clefs}</attributes>${measure}`]);
    expect(marked(text).lines).toEqual(['P1 right 2', 'P1 left 1']);
    expect(marked(text, { staff: { right: [1], left: [2, 3] } }).lines).toEqual(['P1 right 1', 'P1 left 2']);
    expect(marked(text, { staff: { right: [2] } }).lines).toEqual(['P1 right 1']);
  });

  it.each([
    ['G', 'right', 'above'],
    ['F', 'left', 'below'],
  ])('one staff with a %s clef is the %s hand’s, marked %s', (sign, hand, side) => {
    const clef = `<attributes><clef><sign>${sign}</sign></clef></attributes>`;
    const { output, lines } = marked(onePart([attributes(4, 1) + clef + note('C4', 16)]));
    expect(lines).toEqual([`P1 ${hand} 1`]);
    expect(output).toContain(`<fingering placement="${side}"`);
    expect(
      marked(onePart([attributes(4, 1) + clef + note('C4', 16)]), { staff: { left: [1] } }).lines,
    ).toEqual(['P1 left 1']);
  });

  it('what is played several times has one digit: repeats, endings, D.C., D.S. and coda', () => {
    const { output, lines } = marked(fixture('jumps.musicxml'));
    const printed = digits(output);
    expect(Math.max(...printed)).toBe(1);
    const total = lines.reduce((sum, line) => sum + Number(line.split(' ')[2]), 0);
    expect(printed.filter((count) => count === 1)).toHaveLength(total);
  });

  it('grace notes, and a chord of them; a tied note once, where it is struck', () => {
    const grace = (pitch: string, lead = '') => note(pitch, undefined, { lead: `<grace/>${lead}` });
    const held =
      note('C5', 4, { ties: '<tie type="start"/>' }) + note('C5', 4, { ties: '<tie type="stop"/>' });
    const { output } = marked(
      onePart([attributes() + grace('E5') + grace('G5', '<chord/>') + note('F5', 8) + held]),
    );
    expect(digits(output)).toEqual([1, 1, 1, 1, 0]);
  });

  it('a tremolo of one note, and one between two with half of their written length', () => {
    const two = (pitch: string, type: string) =>
      note(pitch, 8, { notations: `<ornaments><tremolo type="${type}">3</tremolo></ornaments>` }).replace(
        '<staff>',
        '<type>whole</type><time-modification><actual-notes>2</actual-notes><normal-notes>1</normal-notes></time-modification><staff>',
      );
    const single = note('C5', 16, { notations: '<ornaments><tremolo type="single">3</tremolo></ornaments>' });
    const { output, codes } = marked(
      onePart([attributes() + two('C5', 'start') + two('E5', 'stop'), single]),
    );
    expect(digits(output)).toEqual([1, 1, 1]);
    expect(codes).toEqual([]);
  });

  it.each<[string, (note: string) => string, readonly string[]]>([
    ['divisions', (text) => text.replace(/<divisions>\d+<\/divisions>/, ''), ['IMPERFECT']],
    ['voice', (text) => text.replaceAll(/<voice>\d<\/voice>/g, ''), []],
    ['staff', (text) => text.replaceAll(/<staff>\d<\/staff>/g, ''), ['IMPERFECT']],
    [
      'duration',
      (text) => text.replaceAll(/<duration>4<\/duration>(<voice>1<\/voice>)/g, '$1<type>quarter</type>'),
      ['IMPERFECT'],
    ],
  ])('a score without <%s>', (_, drop, expected) => {
    const text = drop(onePart([attributes(1) + note('C5', 4) + note('E5', 4)]));
    const { output, codes } = marked(text);
    expect(digits(output)).toEqual([1, 1]);
    expect(codes).toEqual(expected);
  });

  it('a pickup, a measure that is too short and one that is too long', () => {
    const text = onePart([
      attributes() + note('C5', 4),
      note('D5', 8),
      note('E5', 16) + note('F5', 16),
    ]).replace('number="1"', 'number="0" implicit="yes"');
    const { output, codes } = marked(text);
    expect(digits(output)).toEqual([1, 1, 1, 1]);
    expect(codes).toEqual([]);
  });

  it('four hands: two parts, or one of four staves', () => {
    const hands = (first: number) => [staff(first, 'C5'), staff(first + 1, 'C3')].join(backup(16));
    const two = score({ Primo: attributes() + hands(1), Secondo: attributes() + hands(1) });
    const lines = ['right', 'left'].flatMap((hand) => [`${hand} 1`]);
    expect(marked(two).lines).toEqual([
      ...lines.map((line) => `P0 ${line}`),
      ...lines.map((line) => `P1 ${line}`),
    ]);
    const one = onePart([attributes(4, 4) + hands(1) + backup(16) + hands(3)]);
    expect(marked(one).lines).toEqual(['P1 right 1', 'P1 left 1', 'P1 right 1', 'P1 left 1']);
  });
});
