import { describe, expect, it } from 'vitest';
import { byMoment, firstFrom, headsOf, pitchClass } from '#core/musicxml/marks/record/heads.js';
import { shareOut, type Written } from '#core/musicxml/marks/record/write.js';
import type { XmlElement } from '#core/musicxml/xml/tree.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';

const pitch = (step: string, octave: number | string, alter?: number | string) =>
  `<pitch><step>${step}</step>${alter === undefined ? '' : `<alter>${alter}</alter>`}<octave>${octave}</octave></pitch>`;
const note = (inner: string, duration: number | string = 2) =>
  `<note>${inner}<duration>${duration}</duration></note>`;
const divisions = (value: number | string) => `<attributes><divisions>${value}</divisions></attributes>`;
const partwise = (...parts: readonly (readonly string[])[]) =>
  `<score-partwise>${parts.map((own) => `<part>${own.map((content) => `<measure>${content}</measure>`).join('')}</part>`).join('')}</score-partwise>`;
const tree = (text: string) => parseTree(text, DEFAULT_LIMITS);

/** `key@measure:tick` of every head, grace notes with a g. */
const headsIn = (text: string) =>
  headsOf(tree(text), new Set()).map(({ heads }) =>
    heads.map(({ key, measure, tick, grace }) => `${key}@${measure}:${tick}${grace ? 'g' : ''}`).join(' '),
  );
const one = (...measures: readonly string[]) => headsIn(partwise(measures))[0];
const C = pitch('C', 4);
const E = pitch('E', 4);

describe('note heads', () => {
  it('have their key', () => {
    expect(one(note(C) + note(pitch('B', 3, 1)) + note(pitch('C', 5, -1)) + note(pitch('F', -1, 0)))).toBe(
      '60@0:0 60@0:1920 71@0:3840 5@0:5760',
    );
    expect(one(note(pitch(' C ', ' 4 ')))).toBe('60@0:0');
    expect(one(note(pitch('A', 4, 0.4)) + note(pitch('A', 4, 0.6)))).toBe('69@0:0 70@0:1920');
    const classes = headsOf(
      tree(partwise([note(pitch('C', -1, -1)) + note(pitch('G', 9))])),
      new Set(),
    )[0]!.heads.map(pitchClass);
    expect(classes).toEqual([11, 7]);
  });

  it('without a pitch that can be read are none, and take their time', () => {
    for (const inner of ['<rest/>', '<unpitched/>', pitch('H', 4), pitch('C', 'x'), pitch('C', 4, 'x')])
      expect(one(note(inner) + note(C))).toBe('60@0:1920');
  });

  it('stand at 960 ticks a quarter note, whatever the divisions', () => {
    expect(one(divisions(4) + note(C, 2) + note(C, 3) + divisions(6) + note(C, 2) + note(C))).toBe(
      '60@0:0 60@0:480 60@0:1200 60@0:1520',
    );
    // Divisions that cannot be used leave those before.
    for (const bad of ['0', '-1', 'x', ''])
      expect(one(divisions(4) + note(C, 2) + divisions(bad) + note(C, 2) + note(C))).toBe(
        '60@0:0 60@0:480 60@0:960',
      );
    // Ticks that programs round differently are one: 0.6 of one is cut off, and more is not.
    expect(one(divisions(9600) + note(C, 5) + note(C, 1) + note(C, 4) + note(C))).toBe(
      '60@0:0 60@0:0 60@0:1 60@0:1',
    );
  });

  it('in chords stand where the first one stands; grace notes take no time', () => {
    expect(one(note(C) + note(`<chord/>${E}`) + note(E))).toBe('60@0:0 64@0:0 64@0:1920');
    expect(one(`${note(C)}<note><grace/>${E}</note>${note(C)}`)).toBe('60@0:0 64@0:1920g 60@0:1920');
    expect(one(`${note(C)}<note><grace/>${E}</note><note><grace/><chord/>${C}</note>${note(C)}`)).toBe(
      '60@0:0 60@0:1920g 64@0:1920g 60@0:1920',
    );
    expect(one(note(`<grace/>${C}`) + note(C))).toBe('60@0:0g 60@0:0');
  });

  it('are in the order of time, grace notes first, then from the lowest', () => {
    const back = '<backup><duration>2</duration></backup>';
    expect(one(note(E) + back + note(C))).toBe('60@0:0 64@0:0');
    expect(one(note(E) + note(`<chord/>${C}`))).toBe('60@0:0 64@0:0');
    expect(one(`${note(C)}${back}<note><grace/>${E}</note>${note(C)}`)).toBe('64@0:0g 60@0:0 60@0:0');
    expect(one(note(C), note(C))).toBe('60@0:0 60@1:0');
    expect(one(note(C) + note(E), note(C))).toBe('60@0:0 64@0:1920 60@1:0');
  });

  it('follow backups and forwards, never to before the measure', () => {
    const move = (name: string, quarters: number | string) =>
      `<${name}><duration>${quarters}</duration></${name}>`;
    expect(one(note(C) + move('forward', 1) + note(E))).toBe('60@0:0 64@0:2880');
    expect(one(note(C, 4) + move('backup', 1) + note(E))).toBe('60@0:0 64@0:2880');
    expect(one(note(C) + move('backup', 9) + note(E))).toBe('60@0:0 64@0:0');
    expect(one(note(C) + move('forward', -1) + move('backup', 'x') + note(E))).toBe('60@0:0 64@0:1920');
  });

  it('are those of each part, partwise and timewise', () => {
    expect(headsIn(partwise([note(C)], [note(E), note(C)]))).toEqual(['60@0:0', '64@0:0 60@1:0']);
    const timewise = `<score-timewise><measure><part>${note(C)}</part><part>${note(E)}</part></measure><measure><part/><part>${note(C)}</part></measure></score-timewise>`;
    expect(headsIn(timewise)).toEqual(['60@0:0', '64@0:0 60@1:0']);
    expect(headsIn('<score-partwise/>')).toEqual([]);
  });
});

const find = (root: XmlElement, name: string): XmlElement[] => [
  ...root.all(name),
  ...root.children.flatMap((child) => find(child, name)),
];

describe('the moments of other elements', () => {
  it('are where they stand, moved by their offset', () => {
    const direction = (offset?: number) =>
      `<direction>${offset === undefined ? '' : `<offset>${offset}</offset>`}</direction>`;
    const root = tree(
      partwise([
        divisions(2) + direction() + note(C, 2) + direction(1) + direction(-1) + note(E, 2) + direction(),
        direction(),
      ]),
    );
    const wanted = find(root, 'direction');
    const [{ moments } = { moments: new Map() }] = headsOf(root, new Set(wanted));
    expect(wanted.map((own) => moments.get(own))).toEqual([
      { measure: 0, tick: 0 },
      { measure: 0, tick: 1440 },
      { measure: 0, tick: 480 },
      { measure: 0, tick: 1920 },
      { measure: 1, tick: 0 },
    ]);
    expect(headsOf(root, new Set(wanted.slice(1, 2)))[0]!.moments.size).toBe(1);
  });

  it('of notes of a chord are those of its first one; forwards and backups are before they move', () => {
    const text = partwise([
      `${note(C) + note(`<chord/>${E}`)}<forward><duration>1</duration></forward><backup><duration>2</duration></backup>`,
    ]);
    const root = tree(text);
    const wanted = ['note', 'forward', 'backup'].flatMap((name) => find(root, name));
    const [part] = headsOf(root, new Set(wanted));
    expect(wanted.map((own) => part!.moments.get(own)!.tick)).toEqual([0, 0, 1920, 2880]);
  });

  it('come in order, and lead to the first head that is not before', () => {
    const { heads } = headsOf(tree(partwise([note(C) + note(E), note(C)])), new Set())[0]!;
    const first = (measure: number, tick: number) => firstFrom(heads, { measure, tick });
    expect([first(0, 0), first(0, 1), first(0, 1920), first(0, 1921), first(1, 0), first(1, 1)]).toEqual([
      0, 1, 1, 2, 2, 3,
    ]);
    expect(firstFrom([], { measure: 0, tick: 0 })).toBe(0);
    expect(byMoment({ measure: 0, tick: 9 }, { measure: 1, tick: 0 })).toBeLessThan(0);
    expect(byMoment({ measure: 1, tick: 3 }, { measure: 1, tick: 2 })).toBeGreaterThan(0);
    expect(byMoment({ measure: 1, tick: 2 }, { measure: 1, tick: 2 })).toBe(0);
  });
});

describe('records are shared out over words', () => {
  /** Notes C D E F G A B, each with its number as its digit; words stand before those named. */
  function shared(carriers: readonly number[], digits = [1, 2, 3, 4, 5, 1, 2], more = '') {
    const scale = [...'CDEFGAB'].map((step) => note(pitch(step, 4), 1));
    const root = tree(partwise([scale.slice(0, 4).join('') + more, scale.slice(4).join('')]));
    const notes = find(root, 'note');
    const written = new Map<XmlElement, Written>();
    digits.forEach((digit, at) => {
      if (digit > 0) written.set(notes[at]!, { written: `${digit}` });
    });
    const { records, bare } = shareOut(root, written, new Set(carriers.map((at) => notes[at]!)));
    return {
      records: carriers.map((at) => records.get(notes[at]!)),
      bare: bare.map((own) => notes.indexOf(own)),
    };
  }

  it('from each to the next, the first with what lies before it', () => {
    expect(shared([0])).toEqual({ records: ['.n7.a1c2e3f4h5j1l2'], bare: [] });
    expect(shared([2, 5])).toEqual({ records: ['.n7.a1c2.e3f4h5', '.n7.j1l2'], bare: [] });
    expect(shared([0, 1, 6])).toEqual({ records: ['.n7.a1', '.n7.c2e3f4h5j1', '.n7.l2'], bare: [] });
  });

  it('with nothing where no digit is', () => {
    expect(shared([0, 4], [1, 0, 3, 0, 0, 0, 0])).toEqual({ records: ['.n2.a1ce3', ''], bare: [] });
    expect(shared([0], [0, 0])).toEqual({ records: [undefined], bare: [] });
  });

  it('to the first of several at one moment', () => {
    const chord = note(`<chord/>${pitch('A', 4)}`);
    // The A is note 4 of the file, beside F, and has no digit.
    expect(shared([3, 4], [1, 2, 3, 4, 0], chord).records).toEqual(['.n4.a1c2e3.f4', undefined]);
  });

  it('and a part without any needs a word at its first digit', () => {
    expect(shared([], [0, 0, 3])).toEqual({ records: [], bare: [2] });
    expect(shared([], [])).toEqual({ records: [], bare: [] });
  });
});
