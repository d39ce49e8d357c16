import { describe, expect, it } from 'vitest';
import { readScore } from '#core/musicxml/read/score.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { toNumber } from '#core/numeric/fraction.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { Note, Part } from '#core/score/model.js';
import { attributes, backup, note, onePart, readFixture, readText, refusal } from './read-source.js';

const at = ({ num, den }: { num: number; den: number }) => (den === 1 ? `${num}` : `${num}/${den}`);
const timed = (found: Note) => `${found.key} @${at(found.onset)} +${at(found.duration)}`;

function part(name: string, index = 0): Part {
  return readFixture(name).score.parts[index] as Part;
}

function only(measures: readonly string[]): Part {
  return readText(onePart(measures)).score.parts[0] as Part;
}

describe('time', () => {
  it('is exact where divisions change and have decimals', () => {
    expect(part('divisions.musicxml').notes.map(timed)).toEqual([
      '72 @0 +3/2',
      '74 @3/2 +1/2',
      '76 @2 +2/3',
      '77 @8/3 +2/3',
      '79 @10/3 +2/3',
      '48 @0 +2',
      '48 @2 +2',
      '72 @4 +2',
      '76 @6 +1',
      '79 @7 +1',
      '48 @4 +4',
    ]);
  });

  it('does without divisions, voices, staves, types and sound durations, and says so', () => {
    const { score, warnings } = readFixture('imperfect.musicxml');
    expect(score.parts[0]?.notes.map(timed)).toEqual([
      '60 @0 +1',
      '62 @1 +1/2',
      '64 @3/2 +0',
      '65 @3/2 +1',
      '67 @0 +1',
    ]);
    const codes = warnings.map((warning) => warning.code).sort();
    expect(codes).toEqual([...Array(6).fill('IMPERFECT'), 'OUT_OF_RANGE']);
    for (const { place } of warnings)
      expect(place).toMatchObject({ file: 'imperfect.musicxml', part: 'P1', measure: '1' });
  });

  it('takes the fullest part for the length of a measure, and the time signature for an empty one', () => {
    const list = '<part-list><score-part id="A"/><score-part id="B"/></part-list>';
    const measures = (first: string) =>
      `<measure number="1">${attributes(1, 1, '3')}${first}</measure><measure number="2"/><measure number="3">${note('C4', 1)}</measure>`;
    const text = `<score-partwise>${list}<part id="A">${measures(note('C4', 1))}</part><part id="B">${measures(note('C4', 2))}</part></score-partwise>`;
    for (const { measures: found } of readText(text).score.parts) {
      expect(found.map(({ start, length }) => `${at(start)} +${at(length)}`)).toEqual([
        '0 +2',
        '2 +3',
        '5 +1',
      ]);
    }
  });

  it.each([
    ['4', '4', 1, 1, 4],
    ['6', '8', 1.5, 0.5, 3],
    ['3', '8', 0.5, 0.5, 1.5],
    ['2', '2', 2, 2, 4],
    ['9', '16', 0.75, 0.25, 2.25],
    ['3+2', '8', 0.5, 0.5, 2.5],
  ])('knows the beat of %s/%s, and what it counts', (beats, type, beat, unit, nominal) => {
    const [measure] = only([attributes(4, 1, beats, type) + note('C4', 4)]).measures;
    expect([measure!.beat, measure!.unit, measure!.nominal].map(toNumber)).toEqual([beat, unit, nominal]);
  });

  it.each(['NaN', '1e9', 'Infinity', '0x10', '', '--1', '9'.repeat(400)])(
    'never makes a number of "%s"',
    (text) => {
      for (const name of ['divisions', 'duration', 'octave', 'alter', 'staff', 'beats', 'chromatic']) {
        const xml = onePart([
          `<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time><transpose><chromatic>0</chromatic></transpose></attributes>` +
            '<note><pitch><step>C</step><alter>1</alter><octave>4</octave></pitch><duration>2</duration><staff>1</staff></note>',
        ]).replace(new RegExp(`<${name}>[^<]*<`), `<${name}>${text}<`);
        const json = JSON.stringify(readText(xml).score, (_, value) => {
          if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${name}: ${value}`);
          return value;
        });
        expect(json).toContain('"parts"');
      }
    },
  );

  it('refuses durations beyond all reason', () => {
    const found = refusal(() =>
      readText(onePart([`\n${attributes(1, 1)}${note('C4', 999_999_999)}`]), 'a.xml'),
    );
    expect(found).toMatchObject({ code: 'NUMBER', line: 2 });
    expect(found.message).toMatch(/^a\.xml: part P1, measure 1, line 2, column \d+: a duration/);
  });

  it('rounds, with a warning, where no grid is fine enough', () => {
    const measures = [999_983, 999_979, 65_537].map(
      (divisions) => attributes(divisions, 1) + note('C4', divisions) + note('D4', 1),
    );
    const { score, warnings } = readText(onePart(measures));
    // Quarter notes are on any grid.
    expect(warnings.map((warning) => warning.message)).toEqual([
      'times are rounded: the divisions are too fine (first of 3 places)',
    ]);
    expect(score.parts[0]?.notes.map((found) => Math.round(toNumber(found.onset)))).toEqual([
      0, 1, 1, 2, 2, 3,
    ]);
  });

  it('is exact where durations alone have decimals', () => {
    const durations = (...all: readonly string[]) =>
      only([
        attributes(1, 1) +
          all.map((text) => note('C4', 1).replace('<duration>1', `<duration>${text}`)).join(''),
      ]).notes.map(timed);
    expect(durations('0.5', '.25', '1.0', '2')).toEqual([
      '60 @0 +1/2',
      '60 @1/2 +1/4',
      '60 @3/4 +1',
      '60 @7/4 +2',
    ]);
    expect(durations('0.001', '1')).toEqual(['60 @0 +1/1000', '60 @1/1000 +1']);
  });

  it('moves literally by negative backups and never before the measure', () => {
    const first = attributes() + note('C4', 4) + backup(-4) + note('D4', 4) + backup(100) + note('E4', 4);
    expect(only([first]).notes.map(timed)).toEqual(['60 @0 +1', '62 @2 +1', '64 @0 +1']);
  });
});

describe('notes', () => {
  it('keep grace notes and grace chords in order', () => {
    const notes = part('graces.musicxml').notes.filter((found) => found.grace >= 0);
    expect(
      notes.map((found) => `${timed(found)} grace ${found.grace}${found.chord ? ' chord' : ''}`),
    ).toEqual([
      '71 @0 +0 grace 0',
      '74 @0 +0 grace 1',
      '77 @0 +0 grace 1 chord',
      '79 @1 +0 grace 0',
      '74 @4 +0 grace 0',
    ]);
  });

  it('continue others by ties where a beginning fits', () => {
    const { notes } = part('ties.musicxml');
    expect(notes.map((found) => found.tiedFrom)).toEqual([-1, 0, -1, -1, 1, -1, 2, -1]);
  });

  it('sound where a transposing part sounds, an octave shift or not', () => {
    const { score } = readFixture('transposed.musicxml');
    expect(score.parts.map((found) => found.notes.map(({ key }) => key))).toEqual([[72], [82, 86, 58], []]);
    expect(score.parts.map((found) => found.keyboard)).toEqual([false, true, false]);
  });

  it('sound by the last <transpose>, that of their own staff first', () => {
    const transpose = (semitones: number, staff?: number) =>
      `<attributes><transpose${staff === undefined ? '' : ` number="${staff}"`}><chromatic>${semitones}</chromatic></transpose></attributes>`;
    const both = note('C4', 1) + note('C4', 1, { staff: 2 });
    const keys = (...marks: readonly string[]) =>
      only([attributes() + marks.join('') + both]).notes.map(({ key }) => key);
    expect(keys(transpose(2))).toEqual([62, 62]);
    expect(keys(transpose(3, 2))).toEqual([60, 63]);
    expect(keys(transpose(2), transpose(3, 2))).toEqual([62, 63]);
    // For all staves again.
    expect(keys(transpose(3, 2), transpose(2))).toEqual([62, 62]);
  });

  it('of cue, hidden, percussion, tablature and ossia staves are left alone and take their time', () => {
    const cue = note('C4', 4, { lead: '<cue/>' });
    const hidden = note('C4', 4).replace('<note>', '<note print-object="no">');
    const clef = (sign: string) => `<attributes><clef number="2"><sign>${sign}</sign></clef></attributes>`;
    const ossia =
      '<attributes><staff-details number="2"><staff-type>ossia</staff-type></staff-details></attributes>';
    const low = note('C3', 4, { staff: 2 });
    const found = only([
      attributes() +
        cue +
        hidden +
        clef('TAB') +
        low +
        clef('percussion') +
        low +
        clef('F') +
        low +
        ossia +
        low +
        note('E4', 4),
    ]);
    expect(found.notes.map(timed)).toEqual(['48 @4 +1', '64 @6 +1']);
    const small = '<type size="cue">quarter</type>';
    expect(only([attributes() + note('C4', 4, { ties: small })]).notes).toHaveLength(1);
  });

  it('carry the digits that are printed', () => {
    const { notes } = part('digits.musicxml');
    const shown = notes.map(({ digits }) =>
      digits.map((d) => `${d.finger}${d.substitution ? ' then' : ''}${d.alternate ? ' or' : ''}`).join(),
    );
    expect(shown).toEqual(['1', '2,3 then', '3,4 or', '4', '5,1 then', '']);
    expect(notes.map(({ stack }) => stack.join(''))).toEqual(['', '', '', '', '', '531']);
  });

  it('have the place of their element', () => {
    const text = onePart([`\n${attributes()}\n${note('C4', 4)}\n${note('D4', 4)}`]);
    const { score, elements } = readText(text);
    const notes = score.parts[0]!.notes;
    expect(notes.map(({ line }) => line)).toEqual([3, 4]);
    expect(notes.map(({ span }) => text.slice(span.start, span.end))).toEqual([note('C4', 4), note('D4', 4)]);
    expect(elements[0]?.map((element) => element.span)).toEqual(notes.map(({ span }) => span));
  });

  it('know their ornaments, articulations and slurs', () => {
    const notations =
      '<slur type="start"/><ornaments><trill-mark/><shake/><wavy-line type="start"/><tremolo>3</tremolo></ornaments><articulations><staccatissimo/></articulations><fermata/><arpeggiate/>';
    const [found] = only([attributes() + note('C4', 4, { notations })]).notes;
    expect(found).toMatchObject({
      ornaments: ['trill-mark', 'trill-mark', 'tremolo'],
      staccato: true,
      fermata: true,
      slurStart: true,
      slurStop: false,
      arpeggiate: true,
    });
  });

  it('are no more than the limit', () => {
    const text = onePart([attributes() + note('C4', 1).repeat(4)]);
    const context = { limits: { ...DEFAULT_LIMITS, maxNotes: 3 } };
    expect(refusal(() => readScore(parseTree(text, DEFAULT_LIMITS), text, context)).code).toBe('LIMIT');
  });
});
