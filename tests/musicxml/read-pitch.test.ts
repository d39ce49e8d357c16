import fc from 'fast-check';
import { expect, it } from 'vitest';
import { onePart, readText } from './read-source.js';

/** Semitones above C: MusicXML 4.0 schema, step and alter ("-1 flat ... 1 sharp", chromatic semitones). */
const NATURALS = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 } as const;
type Step = keyof typeof NATURALS;
const ORDER = 'CDEFGAB';

const pitchIn = (inner: string) => {
  const { score, warnings } = readText(
    onePart([
      `<attributes><divisions>1</divisions></attributes><note><pitch>${inner}</pitch><duration>1</duration></note>`,
    ]),
  );
  return {
    key: score.parts[0]!.notes[0]?.key,
    warnings: warnings.map(({ code, message }) => `${code}: ${message}`),
  };
};

it('a pitch is on the keyboard from A0 to C8', () => {
  const key = (step: string, octave: number) => pitchIn(`<step>${step}</step><octave>${octave}</octave>`);
  expect(key('A', 0)).toEqual({ key: 21, warnings: [] });
  expect(key('C', 8)).toEqual({ key: 108, warnings: [] });
  const beyond = {
    key: undefined,
    warnings: ['OUT_OF_RANGE: a note lies outside A0 to C8; it is left alone'],
  };
  for (const [step, octave] of [
    ['G', 0],
    ['D', 8],
    ['C', 20],
    ['B', -20],
  ] as const)
    expect(key(step, octave)).toEqual(beyond);
});

it('a pitch that cannot be read, or lies between two keys, is told of', () => {
  expect(pitchIn('<step> C </step><octave> 4 </octave>').key).toBe(60);
  const unreadable = {
    key: undefined,
    warnings: ['IMPERFECT: a <pitch> cannot be read; its note is left alone'],
  };
  for (const inner of [
    '<octave>4</octave>',
    '<step></step><octave>4</octave>',
    '<step>H</step><octave>4</octave>',
    '<step>CD</step><octave>4</octave>',
    '<step>C</step>',
    '<step>C</step><octave>four</octave>',
    '<step>C</step><octave>4.5</octave>',
    '<step>C</step><alter>sharp</alter><octave>4</octave>',
    '<step>C</step><octave>21</octave>',
    '<step>C</step><octave>-21</octave>',
    '<step>C</step><alter>13</alter><octave>4</octave>',
  ])
    expect(pitchIn(inner)).toEqual(unreadable);
  expect(pitchIn('<step>C</step><alter>0.5</alter><octave>4</octave>')).toEqual({
    key: undefined,
    warnings: ['IMPERFECT: a pitch lies between two keys; its note is left alone'],
  });
  expect(pitchIn('<step>C</step><alter>12</alter><octave>4</octave>').key).toBe(72);
});

it('a pitch has its key and its place on the staff; a transposition moves the key alone', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...(Object.keys(NATURALS) as Step[])),
      fc.integer({ min: 2, max: 6 }),
      fc.option(fc.integer({ min: -2, max: 2 }), { nil: undefined }),
      fc.integer({ min: -3, max: 3 }),
      (step, octave, alter, chromatic) => {
        const transpose = `<transpose><chromatic>${chromatic}</chromatic></transpose>`;
        const inner = `<step>${step}</step>${alter === undefined ? '' : `<alter>${alter}</alter>`}<octave>${octave}</octave>`;
        const { score } = readText(
          onePart([
            `<attributes><divisions>1</divisions>${transpose}</attributes><note><pitch>${inner}</pitch><duration>1</duration></note>`,
          ]),
        );
        const { key, diatonic } = score.parts[0]!.notes[0]!;
        // Middle C, the C of octave 4, is MIDI key 60 (MusicXML 4.0 schema, octave: "0 to 9, where 4 is middle C").
        expect(key).toBe(60 + 12 * (octave - 4) + NATURALS[step] + (alter ?? 0) + chromatic);
        expect(diatonic).toBe(7 * octave + ORDER.indexOf(step));
      },
    ),
  );
});
