import { describe, expect, it } from 'vitest';
import { toNumber } from '#core/numeric/fraction.js';
import { attributes, note, onePart, readText } from '../read-source.js';

const whole = note('C5', 16);

/** The printed numbers of the measures in the order of playing; each measure is a whole note and what stands around it. */
function played(...measures: readonly string[]): string {
  return orderOf(onePart(measures.map((content, at) => (at === 0 ? attributes() : '') + content)));
}

function orderOf(text: string): string {
  const { parts } = readText(text).score;
  return parts.map(({ playingOrder }) => playingOrder.map(({ measure }) => measure + 1).join('')).join(' ');
}

/** In front of a measure's note, or behind it. */
const opened = (mark: string): string => mark + whole;
const closed = (mark: string): string => whole + mark;
const sound = (what: string): string => `<sound ${what}/>`;
const left = (content: string, more = ''): string => `<barline location="left"${more}>${content}</barline>`;
const right = (content: string, more = ''): string => `<barline location="right"${more}>${content}</barline>`;
const printed = (content: string): string =>
  `<direction><direction-type>${content}</direction-type></direction>`;
const words = (text: string): string => printed(`<words>${text}</words>`);
const daCapo = sound('dacapo="yes"');
const backward = '<repeat direction="backward"/>';

describe('a fine', () => {
  it.each([
    ['yes', '1234512'],
    // A number of divisions, where the note sounds on: MusicXML 4.0, sound, fine.
    ['4', '1234512'],
    ['no', '1234512345'],
  ])('in <sound fine="%s"> ends the da capo, at its own measure: %s', (value, order) => {
    expect(played(whole, closed(sound(`fine="${value}"`)), whole, whole, closed(daCapo))).toBe(order);
  });

  it('is none the first time, and none without a jump', () => {
    expect(played(closed(sound('fine="yes"')), whole)).toBe('12');
  });
});

describe('a sounding jump', () => {
  it('is taken where it says so alone', () => {
    expect(played(whole, closed(daCapo))).toBe('1212');
    expect(played(whole, closed(sound('dacapo="no"')))).toBe('12');
    expect(played(whole, closed(sound('tempo="90"')))).toBe('12');
  });

  it('is one of several in a direction, and words are words alone', () => {
    const direction = (...what: readonly string[]) =>
      `<direction><direction-type><words>x</words></direction-type>${what.map(sound).join('')}</direction>`;
    const segno = opened(printed('<segno/>'));
    // D.C. sounds, and D.S. is in words: the first counts, wherever it stands among others.
    for (const sounds of [
      ['dacapo="yes"', 'tempo="90"'],
      ['tempo="90"', 'dacapo="yes"'],
    ] as const)
      expect(played(whole, segno, closed(words('D.S.')), closed(direction(...sounds)))).toBe('12341234');
    expect(played(whole, closed(printed('<rehearsal>D.C.</rehearsal>')))).toBe('12');
  });

  it('stands alone or in a direction', () => {
    const inside = `<direction><direction-type><words>D.C.</words></direction-type>${daCapo}</direction>`;
    expect(played(whole, closed(inside))).toBe('1212');
  });

  it('goes to the segno with its own label, whichever comes first', () => {
    const jump = closed(sound('dalsegno="b"'));
    const [a, b] = [opened(sound('segno="a"')), opened(sound('segno="b"'))];
    expect(played(whole, a, b, jump)).toBe('123434');
    expect(played(whole, b, a, jump)).toBe('1234234');
  });

  it('goes on to the coda with its own label', () => {
    const [a, b] = [opened(sound('coda="a"')), opened(sound('coda="b"'))];
    expect(played(closed(sound('tocoda="b"')), closed(daCapo), a, b)).toBe('1214');
    expect(played(closed(sound('tocoda="a"')), closed(daCapo), a, b)).toBe('12134');
  });

  it('goes to a segno that is only printed, and to one at a barline', () => {
    const jump = closed(sound('dalsegno="x"'));
    expect(played(whole, opened(printed('<segno/>')), jump)).toBe('12323');
    expect(played(whole, opened(left('<segno/>')), jump)).toBe('12323');
    expect(
      played(whole, opened(left('<segno/>', ' segno="x"')), opened(left('<segno/>', ' segno="y"')), jump),
    ).toBe('1234234');
    expect(
      played(whole, opened(left('<segno/>', ' segno="y"')), opened(left('<segno/>', ' segno="x"')), jump),
    ).toBe('123434');
  });

  it('goes on to a coda that is only printed, and to one at a barline', () => {
    const start = [closed(sound('tocoda="x"')), closed(daCapo), whole];
    expect(played(...start, opened(printed('<coda/>')))).toBe('1214');
    expect(played(...start, opened(left('<coda/>')))).toBe('1214');
    const labelled = [opened(left('<coda/>', ' coda="y"')), opened(left('<coda/>', ' coda="x"'))];
    expect(played(...start, ...labelled)).toBe('1215');
  });

  it('silences jumps in words', () => {
    expect(played(whole, closed(words('D.S.')), closed(daCapo))).toBe('123123');
    expect(played(whole, closed(words('D.C.')), whole)).toBe('12123');
    const segno = opened(printed('<segno/>'));
    expect(played(whole, segno, closed(words('D.S.')), closed(daCapo))).toBe('12341234');
    expect(played(whole, segno, closed(words('D.C.')), closed(sound('dalsegno=""')))).toBe('1234234');
  });
});

describe('words without a sounding jump', () => {
  it.each([
    ['D.C.', '1212'],
    ['d. c. al Fine', '1212'],
    ['Da Capo', '1212'],
    ['DC al Coda', '1212'],
    ['dc', '1212'],
    ['dolce', '12'],
    ['dcx', '12'],
    ['poco D.C.', '12'],
  ])('"%s" at the end: %s', (text, order) => {
    expect(played(whole, closed(words(text)))).toBe(order);
  });

  it.each([
    ['D.S.', '12323'],
    ['Dal Segno', '12323'],
    ['D. S. al Coda', '12323'],
    ['ds', '12323'],
    ['dsx', '123'],
  ])('"%s" goes to the segno: %s', (text, order) => {
    expect(played(whole, opened(printed('<segno/>')), closed(words(text)))).toBe(order);
  });

  it.each([
    ['Fine', '1231'],
    ['FINE.', '1231'],
    ['fine', '1231'],
    ['Fine del primo atto', '123123'],
    ['in fine', '123123'],
  ])('"%s" ends at its measure: %s', (text, order) => {
    expect(played(closed(words(text)), whole, closed(words('D.C.')))).toBe(order);
  });

  it.each([
    ['To Coda', '12314'],
    ['al Coda', '12314'],
    ['alla coda', '12314'],
    ['Coda', '1231234'],
    ['to codas', '1231234'],
  ])('"%s" goes on to the coda: %s', (text, order) => {
    expect(played(closed(words(text)), whole, closed(words('D.C.')), opened(printed('<coda/>')))).toBe(order);
  });
});

describe('repeats', () => {
  it('begin at a barline or at a sounding mark', () => {
    const end = closed(right(backward));
    expect(played(whole, opened(left('<repeat direction="forward"/>')), end)).toBe('12323');
    expect(played(whole, opened(sound('forward-repeat="yes"')), end)).toBe('12323');
    expect(played(whole, opened(sound('forward-repeat="no"')), end)).toBe('123123');
  });

  it('have the direction that is written', () => {
    expect(played(whole, closed(right('<repeat direction="sideways"/>')))).toBe('12');
    expect(played(whole, closed(right('<repeat direction="forward"/>')), whole)).toBe('123');
  });

  it.each([
    ['', '11'],
    [' times="1"', '1'],
    [' times="3"', '111'],
    [' times="0"', '1'],
    [' times="many"', '11'],
  ])('are played as often as <repeat%s> says', (times, order) => {
    expect(played(closed(right(`<repeat direction="backward"${times}/>`)))).toBe(order);
  });

  it('come again after a jump where they say so alone', () => {
    const repeated = (more: string) => closed(right(`<repeat direction="backward"${more}/>`));
    expect(played(repeated(''), closed(daCapo))).toBe('11212');
    expect(played(repeated(' after-jump="yes"'), closed(daCapo))).toBe('112112');
    expect(played(repeated(' after-jump="no"'), closed(daCapo))).toBe('11212');
  });
});

describe('endings', () => {
  const ending = (number: string, type: string) => `<ending number="${number}" type="${type}"/>`;
  const bracket = (number: string, stop: string, more = '') =>
    left(ending(number, 'start')) + whole + right(ending(number, stop) + more);

  it.each([
    ['1', '1213'],
    ['1, 2', '121213'],
    ['1,2', '121213'],
    ['1-3', '12121213'],
    ['1 2', '121213'],
    ['1-10', `${'12'.repeat(10)}13`],
  ])('number="%s" are played in these passes: %s', (number, order) => {
    const next = `${Number(/\d+$/.exec(number)![0]) + 1}`;
    expect(played(whole, bracket(number, 'stop', backward), bracket(next, 'discontinue'))).toBe(order);
  });

  it.each(['0', '', 'first', '123', '1x'])('number="%s" names none', (number) => {
    expect(played(whole, bracket(number, 'stop', backward), whole)).toBe('12123');
  });

  it('reach over measures to their stop', () => {
    const first = [left(ending('1', 'start')) + whole, whole + right(ending('1', 'stop') + backward)];
    expect(played(whole, ...first, bracket('2', 'stop'), whole)).toBe('123145');
    const open = [left(ending('1', 'start')) + whole, whole + right(ending('1', 'discontinue') + backward)];
    expect(played(whole, ...open, bracket('2', 'stop'), whole)).toBe('123145');
  });

  it('over several measures are left out whole in the other passes, where no other ending follows too', () => {
    for (const stop of ['stop', 'discontinue']) {
      const first = [left(ending('1', 'start')) + whole, whole + right(ending('1', stop) + backward)];
      expect(played(whole, ...first, whole)).toBe('12314');
    }
  });

  it('without a stop cover their own measure, up to the next ending at most', () => {
    const first = left(ending('1', 'start')) + whole;
    expect(played(whole, first + right(backward), whole)).toBe('1213');
    expect(played(whole, first, whole + right(backward), bracket('2', 'stop'))).toBe('12314');
  });

  it('are gathered from all parts', () => {
    const part = (id: string, measures: readonly string[]) =>
      `<part id="${id}">${measures.map((content, at) => `<measure number="${at}">${at === 0 ? attributes() : ''}${content}</measure>`).join('')}</part>`;
    const second = part('B', [whole, bracket('1', 'stop', backward), bracket('2', 'stop')]);
    const list = '<part-list><score-part id="A"/><score-part id="B"/></part-list>';
    const text = `<score-partwise>${list}${part('A', [whole, whole, whole])}${second}</score-partwise>`;
    expect(orderOf(text)).toBe('1213 1213');
  });
});

it('the stretches that are played have the measures as long as they are', () => {
  const text = onePart([attributes() + whole + right(backward), note('C5', 8)]);
  const [part] = readText(text).score.parts;
  expect(part!.playingOrder.map(({ from, to }) => [toNumber(from), toNumber(to)])).toEqual([
    [0, 4],
    [0, 4],
    [4, 6],
  ]);
});
