import fc from 'fast-check';
import { expect, it } from 'vitest';
import { onePart, readText } from './read-source.js';

/** Semitones above C: MusicXML 4.0 schema, step and alter ("-1 flat ... 1 sharp", chromatic semitones). */
const NATURALS = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 } as const;
type Step = keyof typeof NATURALS;
const ORDER = 'CDEFGAB';

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
