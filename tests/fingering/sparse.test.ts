import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { fingerLine } from '#core/fingering/finger.js';
import type { SliceFingering } from '#core/fingering/result.js';
import { sparseDigits } from '#core/fingering/sparse/print.js';
import { reconstruct } from '#core/fingering/sparse/reader.js';
import { buildLines } from '#core/hands/build.js';
import type { Line } from '#core/hands/line.js';
import { readScore } from '#core/musicxml/read/score.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { openSource } from '#core/pipeline/open.js';
import type { Finger, Hand } from '#core/score/model.js';
import { editions, FIXTURES, TUNES } from '../scores.js';
import { happenings, lineOf, single } from './lines.js';

type Digits = readonly (readonly (Finger | null)[])[];

const slicesOf = (digits: Digits): readonly SliceFingering[] =>
  digits.map((struck) => ({ struck, held: [], terms: {}, movement: 0 }));

/** What the reader plays on keys that have a finger; the others as null. */
function asRead(line: Line, digits: Digits, options = {}): Digits {
  const printed = sparseDigits(line, { slices: slicesOf(digits) }, options);
  printed.forEach(({ struck }, at) => {
    struck.forEach((finger, nth) => {
      if (finger !== null) expect(finger).toBe(digits[at]![nth]);
    });
  });
  return reconstruct(line, printed).map((read, at) =>
    read.map((finger, nth) => (digits[at]![nth] === null ? null : finger)),
  );
}

const right = (...keys: number[]): Line => lineOf('right', keys.map(single));

const shown = (line: Line, digits: readonly Finger[]): string =>
  sparseDigits(line, { slices: slicesOf(digits.map((finger) => [finger])) })
    .map(({ struck }) => struck[0] ?? '.')
    .join('');

describe('a reader of sparse digits', () => {
  it('plays any fingering whatever of any line whatever', () => {
    const finger = fc.constantFrom<(Finger | null)[]>(1, 2, 3, 4, 5, 1, 3, null);
    fc.assert(
      fc.property(
        fc.constantFrom<Hand>('right', 'left'),
        happenings({ keys: 4, holds: 2, ambit: 20 }, 1, 30),
        fc.array(finger, { minLength: 1, maxLength: 97 }),
        fc.array(fc.boolean(), { minLength: 1, maxLength: 13 }),
        fc.array(fc.boolean(), { minLength: 1, maxLength: 13 }),
        (hand, events, fingers, always, substituted) => {
          const line = lineOf(hand, events);
          let turn = 0;
          const digits = line.slices.map(({ struck }) => struck.map(() => fingers[turn++ % fingers.length]!));
          const options = {
            always: (at: number) => always[at % always.length]!,
            printed: (at: number, nth: number) => always[(at + nth * 5) % always.length]!,
            substitution: (at: number, nth: number) =>
              substituted[(at + nth) % substituted.length] ? fingers.find((own) => own !== null)! : undefined,
          };
          expect(asRead(line, digits)).toEqual(digits);
          expect(asRead(line, digits, options)).toEqual(digits);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('needs one digit for a five-finger position, two for a scale with one crossing', () => {
    expect(shown(right(60, 62, 64, 65, 67, 65, 64, 62, 60), [1, 2, 3, 4, 5, 4, 3, 2, 1])).toBe('1........');
    expect(shown(right(60, 62, 64, 65, 67, 69, 71, 72), [1, 2, 3, 1, 2, 3, 4, 5])).toBe('1..1....');
    expect(shown(right(60, 64, 67, 72), [1, 2, 3, 5])).toBe('1235');
    expect(shown(right(60, 64, 67, 72), [1, 3, 5, 5])).toBe('1..5');
  });

  it('needs the digits of octaves once and none for a return to the same key', () => {
    const octaves = lineOf(
      'right',
      [60, 62, 64].map((key) => ({
        presses: [key, key + 12].map((own) => ({ key: own, holds: 0, pedalled: false })),
        seconds: 0.25,
        rest: 0,
        phraseStart: false,
        grace: false,
        onBeat: true,
      })),
    );
    const digits: Digits = octaves.slices.map(() => [1, 5]);
    const kept = sparseDigits(octaves, { slices: slicesOf(digits) });
    expect(kept.map(({ struck }) => struck.filter((finger) => finger).length)).toEqual([1, 0, 0]);
    expect(shown(right(60, 72, 60, 72), [1, 5, 1, 5])).toBe('1...');
  });

  it('needs the digit of a key that another finger takes over, whatever it would read', () => {
    const line = right(60, 62, 64, 65);
    const taking = (at: number) => ({
      substitution: (slice: number) => (slice === at ? (5 as const) : undefined),
    });
    const printed = (at: number) =>
      sparseDigits(line, { slices: slicesOf([[1], [2], [3], [4]]) }, taking(at)).map(
        ({ struck, substitutions }) => `${struck[0] ?? '.'}${substitutions![0] ?? ''}`,
      );
    // After 5 on E the next key would be 6, which nobody has: its digit is due as well.
    expect(printed(2)).toEqual(['1', '.', '35', '4']);
    expect(printed(3)).toEqual(['1', '.', '.', '45']);
  });

  it('is deaf to the hand: mirrored music keeps the same digits', () => {
    fc.assert(
      fc.property(happenings({ keys: 3, holds: 1, ambit: 16 }, 1, 20), (events) => {
        const counts = (['right', 'left'] as const).map((hand) => {
          const line = lineOf(hand, events);
          const { fingering } = fingerLine(line, handModel('medium'), { keepDigits: false });
          return sparseDigits(line, fingering).map(({ struck }) => struck.filter((own) => own).sort());
        });
        expect(counts[0]).toEqual(counts[1]);
      }),
      { numRuns: 100 },
    );
  });
});

describe.each([
  { name: 'our tunes', files: TUNES.map((name) => `${FIXTURES}${name}`) },
  { name: 'editions', files: editions(3, 0.8) },
])('$name', ({ name, files }) => {
  it('are read back whole from sparse digits', () => {
    let [kept, all] = [0, 0];
    for (const file of files) {
      const { text, root } = openSource(new Uint8Array(readFileSync(file)), DEFAULT_LIMITS);
      const { score } = readScore(root, text, { limits: DEFAULT_LIMITS });
      for (const line of buildLines(score).lines) {
        const { fingering } = fingerLine(line, handModel('medium'), { keepDigits: true });
        const digits = fingering.slices.map(({ struck }) => struck);
        expect(asRead(line, digits)).toEqual(digits);
        const count = (list: Digits) => list.flat().filter((finger) => finger !== null).length;
        kept += count(sparseDigits(line, fingering).map(({ struck }) => struck));
        all += count(digits);
      }
    }
    console.log(`sparse, ${name}: ${kept} of ${all} digits kept, ${((100 * kept) / all).toFixed(1)} %`);
    expect(kept).toBeLessThan(all);
    expect(all).toBeGreaterThan(100);
  });
});
