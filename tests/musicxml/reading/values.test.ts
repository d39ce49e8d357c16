import { describe, expect, it } from 'vitest';
import { toNumber } from '#core/numeric/fraction.js';
import type { Note } from '#core/score/model.js';
import { attributes, note, onePart, readText, refusal, rest } from '../read-source.js';

const partOf = (...measures: readonly string[]) => {
  const [part] = readText(onePart(measures)).score.parts;
  return part!;
};
const first = (content: string): Note => partOf(attributes() + content).notes[0]!;

describe('note types', () => {
  /** Notes without a duration, which last as long as their type says. */
  const quarters = (inner: string): number => {
    const bare = `<note><pitch><step>C</step><octave>4</octave></pitch>${inner}</note>`;
    return toNumber(partOf(attributes() + bare).notes[0]!.duration);
  };

  // A whole note is four quarters; every name halves or doubles it: MusicXML 4.0, note-type-value.
  it.each([
    ['maxima', 32],
    ['long', 16],
    ['breve', 8],
    ['whole', 4],
    ['half', 2],
    ['quarter', 1],
    ['eighth', 0.5],
    ['16th', 0.25],
    ['32nd', 0.125],
    ['64th', 0.0625],
    ['128th', 0.03125],
    ['256th', 0.015625],
  ])('%s: %s quarter notes', (type, expected) => {
    expect(quarters(`<type>${type}</type>`)).toBe(expected);
  });

  it('of 512 and 1024 to the whole note are as long as the grid tells apart', () => {
    // 6,720 ticks a quarter note.
    expect(quarters('<type>512th</type>')).toBeCloseTo(1 / 128, 3);
    expect(quarters('<type>1024th</type>')).toBeCloseTo(1 / 256, 3);
    expect(quarters('<type>512th</type>')).toBeGreaterThan(quarters('<type>1024th</type>'));
  });

  it.each([
    [1, 1.5],
    [2, 1.75],
    [3, 1.875],
    [4, 1.9375],
    // More are a slip.
    [5, 1.9375],
  ])('with %s dots: %s quarter notes', (dots, expected) => {
    expect(quarters(`<type>quarter</type>${'<dot/>'.repeat(dots)}`)).toBe(expected);
  });

  it.each([
    ['3', '2', 2 / 3],
    ['5', '4', 4 / 5],
    ['2', '3', 3 / 2],
    ['0', '2', 1],
    ['3', '0', 1],
    ['-3', '2', 1],
    ['1000', '1000', 1],
    ['1001', '2', 1],
    ['3', '1001', 1],
    ['x', 'y', 1],
  ])('%s in the time of %s: %s quarter notes', (actual, normal, expected) => {
    const ratio = `<actual-notes>${actual}</actual-notes><normal-notes>${normal}</normal-notes>`;
    expect(quarters(`<type>quarter</type><time-modification>${ratio}</time-modification>`)).toBeCloseTo(
      expected,
      9,
    );
  });

  it.each(['', 'eightth', 'constructor', 'toString'])('"%s" is none', (type) => {
    expect(quarters(`<type>${type}</type>`)).toBe(0);
  });
});

describe('ties', () => {
  const tie = (type: string) => `<tie type="${type}"/>`;
  const tied = (type: string) => `<tied type="${type}"/>`;
  const roles = [
    ['start', 'start'],
    ['stop', 'stop'],
    ['continue', 'both'],
    ['let-ring', 'none'],
    ['', 'none'],
  ];

  it.each(roles)('<tie type="%s"> is %s', (type, role) => {
    expect(first(note('C4', 4, { ties: tie(type) })).tie).toBe(role);
  });

  it.each(roles)('<tied type="%s"> is %s', (type, role) => {
    expect(first(note('C4', 4, { notations: tied(type) })).tie).toBe(role);
  });

  it('both ways are both', () => {
    expect(first(note('C4', 4, { ties: tie('stop') + tie('start') })).tie).toBe('both');
    expect(first(note('C4', 4, { notations: tied('stop') + tied('start') })).tie).toBe('both');
  });

  it('that ring on do not take the next note with them', () => {
    const notes = partOf(attributes() + note('C4', 4, { notations: tied('let-ring') }) + note('C4', 4)).notes;
    expect(notes.map(({ tiedFrom }) => tiedFrom)).toEqual([-1, -1]);
  });

  it('keep the notations of a note to itself', () => {
    const notes = partOf(
      attributes() + note('C4', 4, { ties: tie('start') }) + note('C4', 4) + note('D4', 4),
    ).notes;
    expect(notes.map((found) => found.tie)).toEqual(['start', 'none', 'none']);
  });
});

describe('digits', () => {
  const shown = (text: string, more = ''): string => {
    const notations = `<technical><fingering${more}>${text}</fingering></technical>`;
    const { digits, stack } = first(note('C4', 4, { notations }));
    const list = digits.map(
      (own) => `${own.finger}${own.substitution ? 's' : ''}${own.alternate ? 'a' : ''}`,
    );
    return `${list.join(' ')}|${stack.join('')}`;
  };

  it.each([
    ...['1', '2', '3', '4', '5'].map((digit) => [digit, `${digit}|`]),
    ...['0', '6', '7', '9', '12345678901', '-1', 'i', 'p', '', '+'].map((text) => [text, '|']),
    [' 3 ', '3|'],
    ['(3)', '3|'],
    ['( 3 )', '3|'],
    ['3-1', '3 1s|'],
    ['3–1', '3 1s|'],
    ['3_1', '3 1s|'],
    ['3 ‿ 1', '3 1s|'],
    ['3~1', '3 1s|'],
    ['5-4-3', '5 4s 3s|'],
    ['3/4', '3 4a|'],
    ['3(4)', '3 4a|'],
    ['3-6', '|'],
    ['6-3', '|'],
    ['531', '|531'],
    ['5, 3; 1', '|531'],
    ['5\n3\n1', '|531'],
    ['56', '|'],
    ['65', '|'],
    ['1'.repeat(40), `|${'1'.repeat(40)}`],
    ['1'.repeat(41), '|'],
  ] as [string, string][])('"%s" reads %s', (text, expected) => {
    expect(shown(text)).toBe(expected);
  });

  it('substitute or stand for another where the attributes say so alone', () => {
    expect(shown('3', ' substitution="yes"')).toBe('3s|');
    expect(shown('3', ' alternate="yes"')).toBe('3a|');
    expect(shown('3', ' substitution="no" alternate="no"')).toBe('3|');
  });

  it('at one head in several elements are a stack, unless one follows another', () => {
    const fingering = (text: string, more = '') => `<fingering${more}>${text}</fingering>`;
    const stackOf = (...digits: readonly string[]) =>
      first(note('C4', 4, { notations: `<technical>${digits.join('')}</technical>` })).stack.join('');
    expect(stackOf(fingering('5'), fingering('3'), fingering('1'))).toBe('531');
    expect(stackOf(fingering('5'), fingering('31'))).toBe('531');
    expect(stackOf(fingering('5'))).toBe('');
    expect(stackOf(fingering('2'), fingering('3', ' substitution="yes"'))).toBe('');
    expect(stackOf(fingering('3'), fingering('4', ' alternate="yes"'))).toBe('');
  });
});

describe('the time signature', () => {
  const nominal = (time: string, staff = '') =>
    toNumber(
      partOf(
        `<attributes><divisions>4</divisions><time><beats>3</beats><beat-type>4</beat-type></time></attributes>${note('C4', 4)}`,
        `<attributes><time${staff}>${time}</time></attributes>${note('C4', 4)}`,
      ).measures[1]!.nominal,
    );
  const pair = (beats: string, type: string) => `<beats>${beats}</beats><beat-type>${type}</beat-type>`;

  it('is none in senza misura, whose empty measures have no length', () => {
    expect(nominal('<senza-misura/>')).toBe(0);
    const time = `<attributes><divisions>4</divisions><time><senza-misura/></time></attributes>`;
    const { measures } = partOf(time + note('C4', 4), '', note('C4', 4));
    expect(measures.map(({ length }) => toNumber(length))).toEqual([1, 0, 1]);
    expect(readText(onePart([time + note('C4', 4)])).warnings).toEqual([]);
  });

  it('adds up, is that of the first staff, and stays where a new one cannot be used', () => {
    expect(nominal(pair('3', '4') + pair('3', '8'))).toBe(4.5);
    expect(nominal(pair('2', '4'), ' number="2"')).toBe(3);
    expect(nominal(pair('2', '4'), ' number="1"')).toBe(2);
    for (const bad of [
      pair('0', '4'),
      pair('4', '0'),
      pair('1025', '4'),
      pair('4', '1025'),
      pair('x', '4'),
      '',
    ]) {
      expect(nominal(bad)).toBe(3);
    }
    expect(nominal(pair('1024', '1024'))).toBe(4);
    // Of three that have no common beat nothing can be counted.
    expect(nominal(pair('1', '1000') + pair('1', '999') + pair('1', '998'))).toBe(3);
  });
});

describe('a score’s length', () => {
  it('is at most 50,000,000 quarter notes', () => {
    const time = '<attributes><divisions>1</divisions></attributes>';
    const longest = rest(100_000).repeat(100);
    const measures = (count: number) =>
      Array.from({ length: count }, (_, at) => (at === 0 ? time : '') + longest);
    const { score } = readText(onePart(measures(5)));
    expect(toNumber(score.parts[0]!.measures[4]!.start)).toBe(40_000_000);
    const more = onePart([...measures(5), rest(1)]);
    expect(refusal(() => readText(more, 'a.xml'))).toMatchObject({
      code: 'NUMBER',
      message: expect.stringContaining('50000000 quarter notes'),
    });
    expect(refusal(() => readText(more)).code).toBe('NUMBER');
    // As many divisions again say nothing of the length.
    const fine = onePart([`<attributes><divisions>480</divisions></attributes>${rest(480_000)}`.repeat(2)]);
    expect(toNumber(readText(fine).score.parts[0]!.measures[0]!.length)).toBe(2000);
    const finer = Array.from(
      { length: 2 },
      (_, at) => (at === 0 ? time.replace('1', '480') : '') + rest(48_000_000),
    );
    expect(toNumber(readText(onePart(finer)).score.parts[0]!.measures[1]!.start)).toBe(100_000);
  });

  it('has single durations of at most 100,000 quarter notes', () => {
    const time = '<attributes><divisions>1</divisions></attributes>';
    expect(toNumber(partOf(time + note('C4', 100_000)).notes[0]!.duration)).toBe(100_000);
    expect(refusal(() => partOf(time + note('C4', 100_001))).code).toBe('NUMBER');
  });
});
