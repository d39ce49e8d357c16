import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { fingerLine } from '#core/fingering/finger.js';
import { AUGMENTED_SECOND, intervalBetween } from '#core/fingering/view/interval.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Line } from '#core/hands/line.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import type { Hand } from '#core/score/model.js';
import { melody } from '../motion/lines.js';

const model = handModel();
const HANDS = fc.constantFrom<Hand>('right', 'left');
/** Semitones above C of the steps C ... B. */
const NATURALS = [0, 2, 4, 5, 7, 9, 11] as const;

interface Spelt {
  readonly key: number;
  readonly diatonic: number;
}

/** Notes near middle C, each a step of the staff with an accidental. */
const spelt = fc
  .record({ step: fc.integer({ min: 0, max: 6 }), alter: fc.constantFrom(-1, 0, 0, 0, 1) })
  .map(({ step, alter }): Spelt => ({ key: 60 + NATURALS[step]! + alter, diatonic: 28 + step }));

function lineOf(hand: Hand, notes: readonly Spelt[], withSpelling = true): Line {
  const { line } = melody(
    hand,
    notes.map(({ key }) => key),
    '1'.repeat(notes.length),
  );
  if (!withSpelling) return line;
  const slices = line.slices.map((slice, at) => ({
    ...slice,
    struck: slice.struck.map((key) => ({ ...key, diatonic: notes[at]!.diatonic })),
  }));
  return { ...line, slices };
}

const digits = (line: Line): string =>
  fingerLine(line, model)
    .fingering.slices.map(({ struck }) => struck[0])
    .join('');

/** True where two notes are three semitones and one step of the staff apart. */
const augmented = (a: Spelt, b: Spelt): boolean =>
  Math.abs(a.key - b.key) === 3 && Math.abs(a.diatonic - b.diatonic) === 1;

it('three semitones are an augmented second where the staff says so, for both hands', () => {
  let seen = 0;
  fc.assert(
    fc.property(HANDS, spelt, spelt, (hand, a, b) => {
      const [first, second] = viewLine(lineOf(hand, [a, b]), model, true);
      const interval = intervalBetween(first!, second!);
      const semitones = hand === 'left' ? a.key - b.key : b.key - a.key;
      if (augmented(a, b)) seen++;
      expect(interval).toBe(augmented(a, b) ? Math.sign(semitones) * AUGMENTED_SECOND : semitones);
    }),
    { numRuns: 1000, seed: 1 },
  );
  expect(seen).toBeGreaterThan(10);
});

it('spelling tells nothing but augmented seconds', () => {
  fc.assert(
    fc.property(HANDS, fc.array(spelt, { minLength: 2, maxLength: 12 }), (hand, notes) => {
      fc.pre(notes.every((note, at) => at === 0 || !augmented(notes[at - 1]!, note)));
      expect(digits(lineOf(hand, notes))).toBe(digits(lineOf(hand, notes, false)));
    }),
  );
});

it('mirrored notes on a mirrored staff have the same digits', () => {
  fc.assert(
    fc.property(fc.array(spelt, { minLength: 2, maxLength: 12 }), (notes) => {
      const mirrored = notes.map(({ key, diatonic }) => ({ key: mirrorKey(key), diatonic: 58 - diatonic }));
      expect(digits(lineOf('left', mirrored))).toBe(digits(lineOf('right', notes)));
    }),
  );
});

it('neighbours on the staff get neighbouring fingers over an augmented second, where a minor third leaves one out', () => {
  const keys = [69, 68, 65, 64];
  const scale = keys.map((key, at) => ({ key, diatonic: 33 - at }));
  const chordal = keys.map((key, at) => ({ key, diatonic: [33, 33, 31, 30][at]! }));
  console.log(
    `A, G sharp, F, E: ${digits(lineOf('right', scale))}; A, A flat, F, E: ${digits(lineOf('right', chordal))}`,
  );
  expect(digits(lineOf('right', scale))).toBe('4321');
});
