import { describe, expect, it } from 'vitest';
import { attributes, note, onePart, readText } from '../read-source.js';

const read = (notations: string) => {
  const notes = readText(onePart([attributes() + note('C4', 4, { notations }) + note('D4', 4)])).score
    .parts[0]!.notes;
  // What one note says is not said of the next.
  expect(notes[1]).toMatchObject({ slurStart: false, slurStop: false, staccato: false, ornaments: [] });
  return notes[0]!;
};

describe('slurs', () => {
  it.each([
    ['start', true, false],
    ['stop', false, true],
    ['continue', false, false],
    ['', false, false],
  ])('of type "%s": begins %s, ends %s', (type, slurStart, slurStop) => {
    expect(read(`<slur type="${type}" number="1"/>`)).toMatchObject({ slurStart, slurStop });
  });

  it('may end and begin at one note, in one <notations> or in two', () => {
    const [stop, start] = ['<slur type="stop" number="1"/>', '<slur type="start" number="2"/>'];
    expect(read(stop + start)).toMatchObject({ slurStart: true, slurStop: true });
    expect(read(`${stop}</notations><notations>${start}`)).toMatchObject({ slurStart: true, slurStop: true });
  });

  it('are no ties', () => {
    expect(read('<slur type="start"/>').tie).toBe('none');
    expect(read('<tied type="start"/>')).toMatchObject({ slurStart: false, slurStop: false, tie: 'start' });
  });
});

describe('articulations', () => {
  it.each([
    ['staccato', true],
    ['staccatissimo', true],
    ['spiccato', true],
    ['tenuto', false],
    ['detached-legato', false],
    ['accent', false],
    ['strong-accent', false],
  ])('<%s> lets go early: %s', (name, staccato) => {
    expect(read(`<articulations><${name}/></articulations>`).staccato).toBe(staccato);
    // Elsewhere in <notations> it is no articulation.
    expect(read(`<${name}/><other-notation type="single"><${name}/></other-notation>`).staccato).toBe(false);
  });

  it('and signs beside them count one by one', () => {
    const plain = { staccato: false, fermata: false, arpeggiate: false };
    expect(read('')).toMatchObject(plain);
    expect(read('<fermata/>')).toMatchObject({ ...plain, fermata: true });
    expect(read('<arpeggiate/>')).toMatchObject({ ...plain, arpeggiate: true });
    expect(read('<non-arpeggiate type="top"/>')).toMatchObject(plain);
    expect(read('<articulations><accent/><staccato/></articulations>')).toMatchObject({
      ...plain,
      staccato: true,
    });
  });
});

describe('ornaments', () => {
  // All of MusicXML 4.0's elements in <ornaments>, by the figure that they ask for (common practice).
  it.each([
    ['trill-mark', ['trill-mark']],
    ['shake', ['trill-mark']],
    ['turn', ['turn']],
    ['vertical-turn', ['turn']],
    ['delayed-turn', ['delayed-turn']],
    ['inverted-turn', ['inverted-turn']],
    ['delayed-inverted-turn', ['inverted-turn']],
    ['inverted-vertical-turn', ['inverted-turn']],
    ['mordent', ['mordent']],
    ['inverted-mordent', ['inverted-mordent']],
    ['tremolo', ['tremolo']],
    ['wavy-line', []],
    ['schleifer', []],
    ['haydn', []],
    ['other-ornament', []],
    ['accidental-mark', []],
    ['toString', []],
  ])('<%s>: %j', (name, expected) => {
    expect(read(`<ornaments><${name}/></ornaments>`).ornaments).toEqual(expected);
    expect(read(`<${name}/>`).ornaments).toEqual([]);
  });

  it.each([
    ['', 'tremolo'],
    [' type="single"', 'tremolo'],
    [' type="unmeasured"', 'tremolo'],
    [' type="start"', 'tremolo-start'],
    [' type="stop"', 'tremolo-stop'],
  ])('<tremolo%s> is a %s', (type, expected) => {
    expect(read(`<ornaments><tremolo${type}>3</tremolo></ornaments>`).ornaments).toEqual([expected]);
  });

  it('are kept in their order, and have no type but a tremolo', () => {
    const all =
      '<ornaments><turn type="start"/><accidental-mark>sharp</accidental-mark><mordent/></ornaments>';
    expect(read(`${all}<ornaments><trill-mark/></ornaments>`).ornaments).toEqual([
      'turn',
      'mordent',
      'trill-mark',
    ]);
  });
});

describe('clefs', () => {
  const clef = (sign: string, line?: number | string, staff?: number) =>
    `<clef${staff === undefined ? '' : ` number="${staff}"`}><sign>${sign}</sign>${line === undefined ? '' : `<line>${line}</line>`}</clef>`;
  const clefs = (staves: number, ...all: readonly string[]): string =>
    readText(
      onePart([
        `<attributes><divisions>4</divisions><staves>${staves}</staves>${all.join('')}</attributes>${note('C4', 4)}`,
      ]),
    )
      .score.parts[0]!.clefs.map(({ sign, line }) => `${sign}${line}`)
      .join(' ');

  it('are those of the file', () => {
    expect(clefs(1, clef('C', 3))).toBe('C3');
    expect(clefs(2, clef('G', 2, 1), clef('G', 2, 2))).toBe('G2 G2');
    expect(clefs(2, clef('F', 3, 2), clef('C', 1, 1))).toBe('C1 F3');
  });

  it('without a line stand where they always do, G on the second and F on the fourth', () => {
    expect(clefs(2, clef('G', undefined, 1), clef('F', undefined, 2))).toBe('G2 F4');
    expect(clefs(2, clef('G', 'x', 1), clef('F', '', 2))).toBe('G2 F4');
  });

  it('that are missing are a bass clef on the lowest of several staves and treble clefs above', () => {
    expect(clefs(1)).toBe('G2');
    expect(clefs(2)).toBe('G2 F4');
    expect(clefs(3)).toBe('G2 G2 F4');
    expect(clefs(2, clef('F', 4, 1))).toBe('F4 F4');
  });

  it('count as they are at first, whatever comes later', () => {
    const later = `<attributes>${clef('F', 4)}</attributes>`;
    const text = onePart([
      `<attributes><divisions>4</divisions>${clef('G', 2)}</attributes>${note('C4', 4)}${later}${note('C3', 4)}`,
    ]);
    expect(readText(text).score.parts[0]!.clefs).toEqual([{ sign: 'G', line: 2 }]);
  });
});
