import { describe, expect, it } from 'vitest';
import type { HandOptions } from '#core/hands/assignment/parts.js';
import { buildLines } from '#core/hands/build.js';
import type { Score } from '#core/score/model.js';
import {
  attributes,
  backup,
  note,
  onePart,
  readFixture,
  readText,
  refusal,
  rest,
} from '../musicxml/read-source.js';

/** `P1 right: 72 74` for every line. */
function who(score: Score, options: HandOptions = {}): string[] {
  return buildLines(score, options).lines.map(({ part, hand, slices }) => {
    const keys = slices.map(({ struck }) => struck.map(({ key }) => key).join('+'));
    return `${score.parts[part]?.id} ${hand}: ${keys.join(' ')}`;
  });
}

const clefs = (...signs: string[]) =>
  `<attributes>${signs.map((sign, at) => `<clef number="${at + 1}"><sign>${sign}</sign></clef>`).join('')}</attributes>`;
const low = { staff: 2, voice: '5' };
const visiting = { staff: 1, voice: '5' };

describe('who plays what', () => {
  it('is by staff, and by voice where a voice visits the other staff within reach', () => {
    const { score } = readFixture('cross-staff.musicxml');
    expect(who(score)).toEqual(['P1 right: 76 74 72 72', 'P1 left: 48 55 60 64 55 36 43 48']);
    expect(buildLines(score).warnings).toMatchObject([
      { code: 'HAND_MOVED', place: { part: 'P1', measure: '2' } },
    ]);
  });

  it.each([
    [15, 'left'],
    [16, 'right'],
  ])('gives a visiting note %d semitones above its chord to the %s hand', (semitones, hand) => {
    const steps = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
    const pitch = `${steps[(48 + semitones) % 12]}${Math.floor((48 + semitones) / 12) - 1}`;
    const measure =
      attributes() +
      note('C3', 4, low).repeat(4) +
      note('C3', 4, low) +
      note(pitch, 4, { ...visiting, lead: '<chord/>' });
    const lines = who(readText(onePart([measure])).score);
    expect(lines.find((line) => line.includes(String(48 + semitones)))).toContain(hand);
  });

  it('counts keys that the home hand still holds', () => {
    const bass = note('C2', 16, { staff: 2, voice: '6' });
    const tenor = note('C3', 4, low).repeat(3) + note('C4', 4, visiting);
    const { score } = readText(
      onePart([attributes() + note('C5', 16) + backup(16) + bass + backup(16) + tenor]),
    );
    expect(who(score)).toEqual(['P1 right: 72 60', 'P1 left: 36+48 48 48']);
  });

  it('goes by runs where one voice number serves both staves', () => {
    const measure =
      attributes() +
      note('C5', 8) +
      note('D5', 8) +
      backup(16) +
      note('C3', 8, { staff: 2 }) +
      note('D3', 8, { staff: 2 });
    expect(who(readText(onePart([measure, measure])).score)).toEqual([
      'P1 right: 72 74 72 74',
      'P1 left: 48 50 48 50',
    ]);
  });

  it('goes by words such as m.s. and m.d.', () => {
    expect(who(readFixture('hand-words.musicxml').score)).toEqual([
      'P1 right: 67 64 62 64',
      'P1 left: 60 62 48+60',
    ]);
  });

  it('leaves a tied continuation to the hand that struck it', () => {
    const start = note('C4', 16, { ties: '<tie type="start"/>' });
    const stop = note('C4', 4, { staff: 2, voice: '5', ties: '<tie type="stop"/>' }) + note('D3', 12, low);
    expect(who(readText(onePart([attributes() + start, stop])).score)).toEqual([
      'P1 right: 60',
      'P1 left: 50',
    ]);
  });

  it.each([
    ['G', 'right'],
    ['F', 'left'],
    ['C', 'left'],
  ])('takes the clef of a single staff: %s %s', (sign, hand) => {
    const { score } = readText(onePart([attributes(4, 1) + clefs(sign) + note('A3', 4)]));
    expect(who(score)).toEqual([`P1 ${hand}: 57`]);
  });

  it('takes the name of a single staff before its clef', () => {
    const { score } = readText(onePart([attributes(4, 1) + clefs('G') + note('A3', 4)], 'Piano, left hand'));
    expect(who(score)).toEqual(['P1 left: 57']);
  });

  it('takes three staves by clef, an organ without its pedals, four staves as two players', () => {
    expect(who(readFixture('three-staves.musicxml').score)).toEqual(['P1 right: 76', 'P1 left: 36+55 52']);
    const staves = [1, 2, 3, 4].map(
      (staff) => note(`C${7 - staff}`, 4, { staff, voice: String(staff) }) + backup(4),
    );
    const three = attributes(4, 3) + staves.slice(0, 3).join('');
    expect(who(readText(onePart([three], 'Organ')).score)).toEqual(['P1 right: 84', 'P1 left: 72']);
    const four = attributes(4, 4) + staves.join('');
    expect(who(readText(onePart([four])).score)).toEqual([
      'P1 right: 84',
      'P1 left: 72',
      'P1 right: 60',
      'P1 left: 48',
    ]);
  });

  it('obeys a choice of parts and staves', () => {
    const { score } = readFixture('cross-staff.musicxml');
    expect(who(score, { staff: { right: [2] } })).toEqual(['P1 right: 48 55 60 64 55 36 43 48']);
    const transposed = readFixture('transposed.musicxml').score;
    expect(who(transposed)).toEqual(['P2 right: 82 86', 'P2 left: 58']);
    expect(who(transposed, { parts: ['P1'] })).toEqual(['P1 right: 72']);
    expect(who(transposed, { parts: ['P2'], staff: { left: [1, 2] } })).toEqual(['P2 left: 58+82 86']);
    const melody = readText(onePart([attributes(4, 1) + note('C5', 4)], 'Melody')).score;
    expect(who(melody, { staff: { left: [1] } })).toEqual(['P1 left: 72']);
  });

  it('warns where there is no piano, and refuses parts and staves that are not there', () => {
    const melody = readText(onePart([attributes(4, 1) + note('C5', 4)], 'Melody')).score;
    expect(buildLines(melody)).toMatchObject({ lines: [], warnings: [{ code: 'NO_PIANO' }] });
    expect(refusal(() => buildLines(melody, { parts: ['P9'] }))).toMatchObject({ code: 'OPTION' });
    expect(refusal(() => buildLines(melody, { parts: ['P1'], staff: { left: [2] } })).code).toBe('OPTION');
  });

  it('makes no line of a hand without notes', () => {
    expect(who(readText(onePart([attributes() + note('C5', 4) + rest(4)])).score)).toEqual(['P1 right: 72']);
  });
});
