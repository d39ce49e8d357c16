import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyName } from '#core/keyboard/key-names.js';
import { HIGHEST_KEY, isBlack, LOWEST_KEY } from '#core/keyboard/key-plan.js';

const key = fc.integer({ min: LOWEST_KEY, max: HIGHEST_KEY });
const spelling = fc.record({ step: fc.integer({ min: 0, max: 6 }), alter: fc.integer({ min: -2, max: 2 }) });

/** The key that a name means, read letter by letter. */
function meant(name: string): number {
  const [, letter = '', accidentals = '', octave] = /^([A-G])([♯♭]*)(-?\d+)$/.exec(name)!;
  const natural = 'C D EF G A B'.indexOf(letter);
  const alter = [...accidentals].reduce((sum, sign) => sum + (sign === '♯' ? 1 : -1), 0);
  return 12 * (Number(octave) + 1) + natural + alter;
}

describe('names of keys', () => {
  it('mean their key, with and without a spelling', () => {
    fc.assert(
      fc.property(key, spelling, (own, written) => {
        expect(meant(keyName(own))).toBe(own);
        expect(meant(keyName(own, written))).toBe(own);
      }),
      { numRuns: 1000 },
    );
  });

  it('are those of the spelling, whose octave goes by the letter', () => {
    expect(keyName(60)).toBe('C4');
    expect(keyName(61)).toBe('C♯4');
    expect(keyName(61, { step: 1, alter: -1 })).toBe('D♭4');
    expect(keyName(60, { step: 6, alter: 1 })).toBe('B♯3');
    expect(keyName(59, { step: 0, alter: -1 })).toBe('C♭4');
    expect(keyName(67, { step: 3, alter: 2 })).toBe('F♯♯4');
  });

  it('pass over the spelling of another key, as in a transposed part', () => {
    fc.assert(
      fc.property(key, (own) => {
        const other = { step: isBlack(own) ? 0 : 2, alter: own % 12 === 4 ? 1 : 0 };
        expect(keyName(own, other)).toBe(keyName(own));
      }),
    );
  });
});
