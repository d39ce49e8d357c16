import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { LONG } from '../rounds.js';
import { attributes, backup, note, onePart, readText, rest } from './read-source.js';

// No assertion on time: whatever grows faster than linearly here runs into the test's own time limit.
const MANY = LONG ? 20_000 : 4000;

function play(measures: readonly string[]): number {
  const { score } = readText(onePart(measures));
  return buildLines(score).lines.reduce((sum, line) => sum + line.slices.length, 0);
}

describe('scores that make quadratic work expensive', () => {
  it('grace notes without end at one place', () => {
    expect(
      play([attributes() + note('C5', undefined, { lead: '<grace/>' }).repeat(MANY) + note('D5', 4)]),
    ).toBe(MANY + 1);
  });

  it('open ties of one key', () => {
    const open = note('C5', 16, { ties: '<tie type="start"/>' }) + backup(16);
    expect(play([attributes() + open.repeat(MANY) + note('C5', 16, { ties: '<tie type="stop"/>' })])).toBe(1);
  });

  it('one chain of ties', () => {
    const link = note('C5', 4, { ties: '<tie type="stop"/><tie type="start"/>' });
    expect(play([attributes() + link.repeat(MANY)])).toBe(1);
  });

  it('cross-staff notes, all at once and all held', () => {
    const low = { staff: 2, voice: '5' };
    const home = note('C3', 4, low).repeat((3 * MANY) / 4);
    const visitor = note('C5', 4, { staff: 1, voice: '5', lead: '<chord/>' });
    expect(play([attributes() + home + visitor.repeat(MANY / 8)])).toBeGreaterThan(1);
    const held = Array.from(
      { length: MANY / 2 },
      (_, at) =>
        note(`${'CDEFGAB'[at % 7]}${2 + (at % 5)}`, 9000, { staff: 1 + (at % 9 === 0 ? 1 : 0) }) +
        backup(8999),
    );
    expect(play([attributes() + held.join('')])).toBeGreaterThan(1);
  });

  it('words for hands on every note of one measure', () => {
    const word = '<direction><direction-type><words>m.s.</words></direction-type></direction>';
    expect(play([attributes() + (word + note('C4', 1) + rest(1)).repeat(MANY / 2)])).toBe(MANY / 2);
  });

  it('pedal changes and tempo marks on every note', () => {
    const marks =
      '<direction><direction-type><pedal type="change"/></direction-type><sound tempo="99"/></direction>';
    expect(play([attributes() + (marks + note('C4', 1)).repeat(MANY)])).toBe(MANY);
  });

  it('a measure for every note, each with an ending, a repeat and a jump', () => {
    const barline =
      '<barline><ending number="1" type="start"/><repeat direction="backward"/></barline><sound dacapo="yes"/>';
    expect(
      play(
        Array.from({ length: MANY / 4 }, (_, at) => (at === 0 ? attributes() : '') + note('C4', 4) + barline),
      ),
    ).toBe(MANY / 4);
  });

  it('voices, staves and parts by the thousand', () => {
    const voices = Array.from({ length: MANY / 2 }, (_, at) => note('C4', 1, { voice: `v${at}`, staff: at }));
    expect(play([attributes() + voices.join('')])).toBeGreaterThan(0);
    const parts = Array.from(
      { length: MANY / 8 },
      (_, at) => `<part id="P${at}"><measure number="1">${note('C4', 1)}</measure></part>`,
    );
    expect(readText(`<score-partwise>${parts.join('')}</score-partwise>`).score.parts).toHaveLength(MANY / 8);
  });

  it('a fingering of a hundred thousand spaces and dashes', () => {
    const text = `<technical><fingering>1${' -  1'.repeat(MANY)} x</fingering></technical>`;
    expect(play([attributes() + note('C4', 1, { notations: text })])).toBe(1);
  });
});
