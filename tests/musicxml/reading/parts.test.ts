import { describe, expect, it } from 'vitest';
import { readParts } from '#core/musicxml/read/parts/parts.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { attributes, note, onePart, readText, refusal } from '../read-source.js';

const partsOf = (text: string) => readParts(parseTree(text, DEFAULT_LIMITS));

describe('what a score says of its parts', () => {
  const described = (inner: string) => {
    const { name, names, sounds, programs } = partsOf(
      `<score-partwise><part-list><score-part id="A">${inner}</score-part></part-list><part id="A"/></score-partwise>`,
    )[0]!;
    return { name, names, sounds, programs };
  };

  it('is their names, sounds and programs, empty ones left out', () => {
    const instrument = (id: string, name: string, sound?: string) =>
      `<score-instrument id="${id}"><instrument-name>${name}</instrument-name>${sound === undefined ? '' : `<instrument-sound>${sound}</instrument-sound>`}</score-instrument>`;
    const midi = (program: string) =>
      `<midi-instrument id="I"><midi-program>${program}</midi-program></midi-instrument>`;
    const full = `<part-name>Hands</part-name>${instrument('I', 'Grand', 'keyboard.piano')}${instrument('J', '')}${instrument('K', 'Bells', '')}${midi('1')}${midi('x')}${midi('10')}<midi-instrument id="K"/>`;
    expect(described(full)).toEqual({
      name: 'Hands',
      names: ['Hands', 'Grand', 'Bells'],
      sounds: ['keyboard.piano'],
      programs: [1, 10],
    });
    expect(described('')).toEqual({ name: '', names: [], sounds: [], programs: [] });
  });

  it('may be nothing', () => {
    const [part] = partsOf('<score-partwise><part id="B"/></score-partwise>');
    expect(part).toEqual({ id: 'B', name: '', names: [], sounds: [], programs: [], staves: 1, measures: [] });
    expect(partsOf('<score-partwise><part/></score-partwise>')[0]!.id).toBe('');
  });

  it('stands beside what each part plays, by id, in the order of the music', () => {
    const list = ['A', 'B'].map(
      (id) => `<score-part id="${id}"><part-name>name ${id}</part-name></score-part>`,
    );
    const text = `<score-partwise><part-list>${list.join('')}</part-list><part id="B"/><part id="A"/><part id="B"><measure number="9"/></part></score-partwise>`;
    expect(partsOf(text).map(({ id, name, measures }) => [id, name, measures.length])).toEqual([
      ['B', 'name B', 1],
      ['A', 'name A', 0],
    ]);
  });
});

describe('measures', () => {
  it('have their number and may be implicit', () => {
    const text = `<score-partwise><part id="A"><measure number="0" implicit="yes"/><measure number="X1" implicit="no"/><measure/></part></score-partwise>`;
    expect(partsOf(text)[0]!.measures.map(({ number, implicit }) => [number, implicit])).toEqual([
      ['0', true],
      ['X1', false],
      ['', false],
    ]);
    const timewise = `<score-timewise><measure number="0" implicit="yes"><part id="A"/><part id="B"/></measure><measure number="1"><part id="B"/></measure></score-timewise>`;
    expect(
      partsOf(timewise).map(({ id, measures }) => `${id} ${measures.map(({ number }) => number)}`),
    ).toEqual(['A 0', 'B 0,1']);
    expect(partsOf(timewise)[0]!.measures[0]).toMatchObject({ implicit: true, content: { name: 'part' } });
  });
});

describe('the staves of a part', () => {
  const staves = (...measures: readonly string[]) => partsOf(onePart(measures))[0]!.staves;
  const said = (count: string) => `<attributes><staves>${count}</staves></attributes>`;

  it('are as many as it says, at any place', () => {
    expect(staves(said('2'))).toBe(2);
    expect(staves('', said('3'))).toBe(3);
    expect(staves(said('3'), said('2'))).toBe(3);
    expect(staves(said('1'))).toBe(1);
    // Then notes do not count.
    expect(staves(said('2'), note('C4', 4, { staff: 3 }))).toBe(2);
  });

  it('are those of its notes where it does not', () => {
    expect(staves(note('C4', 4, { staff: 1 }) + note('C3', 4, { staff: 2 }))).toBe(2);
    expect(staves(said('1'), note('C3', 4, { staff: 3 }))).toBe(3);
    expect(staves(said('x'), note('C3', 4, { staff: 2 }))).toBe(2);
    expect(staves('<direction><staff>2</staff></direction>')).toBe(1);
  });

  it('are 1 to 64', () => {
    for (const none of ['0', '-2', '', 'two']) expect(staves(said(none))).toBe(1);
    expect(staves(said('64'))).toBe(64);
    expect(staves(said('65'))).toBe(64);
    expect(staves(note('C4', 4, { staff: 1000 }))).toBe(64);
  });
});

describe('a root that is no score', () => {
  it('is refused, with its name and what to do', () => {
    const found = refusal(() => partsOf('<m:opus xmlns:m="x"/>'));
    expect(found).toMatchObject({
      code: 'NOT_MUSICXML',
      message:
        'the root element is <m:opus>, not <score-partwise> or <score-timewise>; export the score as MusicXML',
    });
    expect(refusal(() => readText('<opus/>', 'a.xml')).message).toMatch(
      /^a\.xml: the root element is <opus>/,
    );
    expect(refusal(() => partsOf(`<${'x'.repeat(50)}/>`)).message).toContain(`<${'x'.repeat(40)}>`);
  });
});

describe('a brace', () => {
  const group = (number: string, type: string, more = '<group-symbol>brace</group-symbol>') =>
    `<part-group${number === '' ? '' : ` number="${number}"`} type="${type}">${type === 'start' ? more : ''}</part-group>`;
  const part = (id: string, name = 'Piano') =>
    `<score-part id="${id}"><part-name>${name}</part-name></score-part>`;
  /** Partners by part, `-` for none. */
  const partners = (list: string, ids: string, staves = 1) => {
    const music = [...ids].map(
      (id) => `<part id="${id}"><measure number="1">${attributes(4, staves)}</measure></part>`,
    );
    const text = `<score-partwise><part-list>${list}</part-list>${music.join('')}</score-partwise>`;
    return partsOf(text)
      .map(({ partner }) => (partner ? `${partner.part}${partner.lies[0]}` : '-'))
      .join(' ');
  };
  const [a, b, c, d] = ['A', 'B', 'C', 'D'].map((id) => part(id)) as [string, string, string, string];

  it('joins the two parts between its start and its stop', () => {
    expect(partners(group('1', 'start') + a + b + group('1', 'stop'), 'AB')).toBe('1b 0a');
    expect(partners(a + group('1', 'start') + b + c + group('1', 'stop') + d, 'ABCD')).toBe('- 2b 1a -');
    const two = (one: string, other: string, number: string) =>
      group(number, 'start') + one + other + group(number, 'stop');
    expect(partners(two(a, b, '1') + two(c, d, '1'), 'ABCD')).toBe('1b 0a 3b 2a');
    // Without a number it is number 1; one that is never closed goes to the end; a start closes what had its number.
    expect(partners(group('', 'start') + a + b + group('1', 'stop') + c, 'ABC')).toBe('1b 0a -');
    expect(partners(group('1', 'start') + a + b, 'AB')).toBe('1b 0a');
    expect(partners(group('1', 'start') + a + b + group('1', 'start') + c + d, 'ABCD')).toBe('1b 0a 3b 2a');
    expect(partners(group('1', 'start') + a + b + group('2', 'stop') + c, 'ABC')).toBe('- - -');
  });

  it('counts within other groups, and of two around the same parts the inner one', () => {
    const outer = group('1', 'start', '<group-symbol>bracket</group-symbol>');
    expect(
      partners(outer + group('2', 'start') + a + b + group('2', 'stop') + c + group('1', 'stop'), 'ABC'),
    ).toBe('1b 0a -');
    expect(
      partners(
        group('1', 'start') + group('2', 'start') + a + b + group('2', 'stop') + group('1', 'stop'),
        'AB',
      ),
    ).toBe('1b 0a');
  });

  it('joins no single part, no three, none with two staves, none that is missing', () => {
    const braced = (list: string) => group('1', 'start') + list + group('1', 'stop');
    expect(partners(braced(a), 'A')).toBe('-');
    expect(partners(braced(a + b + c), 'ABC')).toBe('- - -');
    expect(partners(braced(a + b), 'AB', 2)).toBe('- -');
    expect(partners(braced(a + b), 'A')).toBe('-');
    expect(partners(braced(a + a), 'A')).toBe('-');
    expect(partners(braced(part('A', 'Violin') + b), 'AB')).toBe('- -');
    expect(partners(a + b, 'AB')).toBe('- -');
  });

  it('gives its names to both parts, which need a keyboard’s by them', () => {
    const named = (name: string) =>
      group('1', 'start', `<group-name>${name}</group-name><group-symbol>brace</group-symbol>`) +
      part('A', 'upper') +
      part('B', 'lower');
    expect(partners(named('Klavier'), 'AB')).toBe('1b 0a');
    expect(partners(named('Duo'), 'AB')).toBe('- -');
    const short = named('Klavier').replaceAll('group-name', 'group-abbreviation');
    expect(partners(short, 'AB')).toBe('1b 0a');
  });
});

it('a hidden note, a cue and a note on a percussion staff are passed over, and what follows keeps its id', () => {
  const text = onePart([
    attributes() +
      note('C4', 4) +
      note('D4', 4).replace('<note>', '<note print-object="no">') +
      note('E4', 4, { lead: '<cue/>' }) +
      note('F4', 4),
  ]);
  const { score, elements } = readText(text);
  expect(score.parts[0]!.notes.map(({ id, key }) => `${id} ${key}`)).toEqual(['0 60', '1 65']);
  expect(elements[0]).toHaveLength(2);
});
