import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import type { Line, Slice } from '#core/hands/line.js';
import { attributes, backup, note, onePart, readFixture, readText, rest } from '../musicxml/read-source.js';

/** Seconds at 90 quarter notes a minute, which is taken where the score names no tempo. */
const QUARTER = 60 / 90;
/** Seconds of a grace note. */
const GRACE = 0.08;

function linesOf(measures: readonly string[]): readonly Line[] {
  return buildLines(readText(onePart(measures)).score).lines;
}

function right(measures: readonly string[]): readonly Slice[] {
  return linesOf(measures).find((line) => line.hand === 'right')?.slices ?? [];
}

/** `60 64 | 48 < 55` : struck, held, let go before. */
function sketch(slice: Slice): string {
  const keys = (list: Slice['struck']) => list.map(({ key }) => key).join(' ');
  return `${keys(slice.struck)} | ${keys(slice.held)} < ${slice.released.join(' ')}`
    .replace(/ +/g, ' ')
    .trim();
}

describe('slices', () => {
  it('hold keys of another voice until they end', () => {
    const measure = attributes() + note('E5', 4) + note('F5', 4) + note('G5', 8) + backup(16);
    const slices = right([measure + note('C5', 8, { voice: '2' }) + rest(8, '2')]);
    expect(slices.map(sketch)).toEqual(['72 76 | <', '77 | 72 < 76', '79 | < 72 77']);
    expect(slices[1]?.held[0]).toMatchObject({ since: 0, notes: [3], seconds: QUARTER });
    expect(slices[0]?.struck.map(({ seconds }) => seconds)).toEqual([2 * QUARTER, QUARTER]);
  });

  it('make one key of a unison of two voices, held as long as the longer', () => {
    const measure = attributes() + note('C5', 4) + note('D5', 4) + backup(8) + note('C5', 8, { voice: '2' });
    const slices = right([measure]);
    expect(slices.map(sketch)).toEqual(['72 | <', '74 | 72 <']);
    expect(slices[0]?.struck[0]).toMatchObject({ notes: [0, 2], seconds: 2 * QUARTER });
  });

  it('let go of a held key that is struck again', () => {
    const measure = attributes() + note('C5', 16) + backup(16) + rest(4, '2') + note('C5', 4, { voice: '2' });
    const slices = right([measure]);
    expect(slices.map(sketch)).toEqual(['72 | <', '72 | < 72']);
    expect(slices[0]?.struck[0]?.seconds).toBeCloseTo(QUARTER);
  });

  it('hold ties through every continuation, also into another voice', () => {
    const { lines } = buildLines(readFixture('ties.musicxml').score);
    expect(lines[0]?.slices.map(sketch)).toEqual(['67 72 | <', '74 | < 67 72']);
    expect(lines[0]?.slices[0]?.struck.map(({ seconds }) => seconds / QUARTER)).toEqual([6, 6]);
  });

  it('put grace notes before their main note, in time taken from before it', () => {
    const slices = buildLines(readFixture('graces.musicxml').score).lines[0]?.slices ?? [];
    expect(slices.map((slice) => `${slice.grace ? 'grace ' : ''}${sketch(slice)}`)).toEqual([
      'grace 71 | <',
      'grace 74 77 | < 71',
      '76 | < 74 77',
      'grace 79 | < 76',
      '77 | < 79',
      '76 | < 77',
      'grace 74 | < 76',
      '72 | < 74',
    ]);
    for (const at of [1, 2, 4, 7]) expect(slices[at]?.seconds).toBeCloseTo(GRACE);
    expect(slices[3]?.seconds).toBeCloseTo(QUARTER - GRACE);
  });

  it('keep other voices down under grace notes, and the grace note itself where it is tied', () => {
    const grace = { lead: '<grace/>', ties: '<tie type="start"/>' };
    const main = { ties: '<tie type="stop"/>' };
    const measure =
      attributes() +
      note('E5', 4) +
      note('G5', undefined, grace) +
      note('G5', 4, main) +
      note('A5', 8) +
      backup(16);
    const slices = right([
      measure + note('C5', 4, { voice: '2' }) + note('D5', 4, { voice: '2' }) + note('E5', 8, { voice: '2' }),
    ]);
    expect(slices.map(sketch)).toEqual(['72 76 | <', '79 | 72 < 76', '74 | 79 < 72', '76 81 | < 74 79']);
    expect(slices[1]?.struck[0]?.seconds).toBeCloseTo(QUARTER + GRACE);
  });

  it('squeeze grace notes into half of a short gap', () => {
    const graces = note('D5', undefined, { lead: '<grace/>' }).repeat(3);
    const slices = right([attributes(8) + note('C5', 1) + graces + note('E5', 1)]);
    expect(slices[4]?.seconds).toBeCloseTo(QUARTER / 8 / 6);
    for (const slice of slices) expect(slice.seconds).toBeGreaterThanOrEqual(0);
  });

  it('take rounded tuplets for neither overlaps nor rests', () => {
    const triplet = note('C5', 341) + note('D5', 342) + note('E5', 341);
    const long = note('C5', 340) + backup(0) + note('D5', 342);
    const slices = right([attributes(1024) + triplet + triplet + long + note('E5', 342)]);
    for (const slice of slices.slice(1)) expect([slice.held.length, slice.phraseStart]).toEqual([0, false]);
  });

  it('know free time, phrases, beats, pedal and rolled chords', () => {
    const [upper, lower] = buildLines(readFixture('pedal-tempo.musicxml').score).lines;
    expect(upper?.slices.map(({ free }) => free)).toEqual([0, 1, 0]);
    expect(upper?.slices.map(({ phraseStart }) => phraseStart)).toEqual([true, false, true]);
    expect(upper?.slices.map(({ rolled }) => rolled)).toEqual([false, false, true]);
    expect(upper?.slices[2]?.struck.map(({ seconds }) => seconds)).toEqual([2, 2, 2]);
    expect(lower?.slices.map(({ struck }) => struck[0]?.pedalled)).toEqual([true, true, true]);
    expect(lower?.slices.map(({ onBeat }) => onBeat)).toEqual([true, true, true]);
  });

  it('begin a phrase after a rest and after a slur of the same voice, not of another', () => {
    const slur = (type: string) => ({ notations: `<slur type="${type}"/>` });
    const measure =
      attributes() +
      note('C5', 4, slur('start')) +
      note('D5', 4, slur('stop')) +
      note('E5', 2) +
      rest(2) +
      note('F5', 4);
    expect(right([measure]).map(({ phraseStart }) => phraseStart)).toEqual([true, false, true, true]);
    const other =
      attributes() +
      note('C5', 8) +
      note('D5', 8) +
      backup(16) +
      note('E4', 4, { voice: '2', ...slur('stop') }) +
      rest(12, '2');
    expect(right([other]).map(({ phraseStart }) => phraseStart)).toEqual([true, false]);
  });

  it('count the beats of a pickup from its end', () => {
    const pickup = onePart([
      attributes(2, 1, '3') + note('C5', 1) + note('D5', 2),
      note('E5', 1) + note('F5', 5),
    ]);
    const { score } = readText(pickup);
    expect(buildLines(score).lines[0]?.slices.map(({ onBeat }) => onBeat)).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it('take the first plain printed digit as a demand, unless digits are to be ignored', () => {
    const { score } = readFixture('digits.musicxml');
    const fixed = (existing: 'keep' | 'ignore') =>
      buildLines(score, { existing })
        .lines[0]?.slices.map(({ struck }) => struck[0]?.fixed ?? '-')
        .join('');
    expect(fixed('keep')).toBe('12345-');
    expect(fixed('ignore')).toBe('------');
    expect(buildLines(score).warnings.map(({ code }) => code)).toEqual(['DIGIT_IGNORED']);
  });
});
