import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { openChordFigures } from '#core/fingering/consistency/figures/open-chord-figures.js';
import { viewLine } from '#core/fingering/view/view.js';
import { fingerLine, type Hand } from '#core/index.js';
import { buildLine, even } from '../practice/passages/making/build-line.js';
import { rounds, SEED } from '../rounds.js';
import { type Happening, lineOf, single } from './lines.js';
import { returnsInOpenChords } from './restated/open-chords.js';

const HANDS = fc.constantFrom<Hand>('right', 'left');

/** Semitones of chords that are open, and of some that are not: in one place, with a step, with too many keys, too wide. */
const CHORDS = [
  [0, 7, 16],
  [0, 7, 12, 15],
  [0, 4, 10, 16, 20],
  [0, 8, 13],
  [0, 4, 7, 12],
  [0, 7, 9, 16],
  [0, 3, 6, 9, 12, 15],
  [0, 9, 21],
  [0, 12, 16],
] as const;

/** Their keys up and down, broken off by barlines, a leap or a rest now and then. */
const lines = fc
  .record({
    root: fc.integer({ min: 48, max: 56 }),
    chord: fc.constantFrom(...CHORDS),
    turns: fc.array(fc.constantFrom(1, 1, 1, -1, -1, 2), { minLength: 3, maxLength: 14 }),
    measure: fc.constantFrom(3, 6, 20),
    rest: fc.option(fc.nat(12), { freq: 3 }),
  })
  .map(({ root, chord, turns, measure, rest }) => ({
    measure,
    events: turns.map((_, at): Happening => {
      const round = 2 * (chord.length - 1);
      const place = Math.abs(turns.slice(0, at).reduce((sum, turn) => sum + turn, 0)) % round;
      return {
        ...single(root + chord[Math.min(place, round - place)]!),
        seconds: rest === at ? 1.2 : 0.3,
        rest: rest === at ? 0.9 : 0,
      };
    }),
  }));

it('keys that return in open chords are joined as their description says', () => {
  const joined = { of: 0, in: 0 };
  fc.assert(
    fc.property(HANDS, lines, (hand, { events, measure }) => {
      const line = lineOf(hand, events);
      const slices = line.slices.map((slice, at) => ({ ...slice, measure: Math.floor(at / measure) }));
      const views = viewLine({ ...line, slices }, handModel(), true);
      const expected = returnsInOpenChords(views);
      joined.of += expected.length;
      joined.in++;
      const found = openChordFigures(views).toSorted((one, other) => one.slices[0]! - other.slices[0]!);
      expect(found).toEqual(expected);
      expect(figuresOf(views)).toEqual(expect.arrayContaining([...expected]));
    }),
    { ...rounds(400), seed: SEED },
  );
  console.log(`open chords: ${joined.of} keys that return in ${joined.in} lines`);
  expect(joined.of).toBeGreaterThan(100);
});

const BASSES: readonly (readonly number[])[] = [
  [0, 7, 16, 7, 16, 7],
  [0, 7, 12, 16, 12, 7],
  [0, 7, 16, 12, 16, 7],
  [0, 7, 12, 19, 12, 7],
];

it('in the bass of a nocturne a key keeps its finger within the measure', () => {
  let [measures, kept] = [0, 0];
  for (const bass of BASSES) {
    for (let tonic = 0; tonic < 12; tonic++) {
      const keys = [0, 5, 7, 0].flatMap((step) => bass.map((own) => 36 + ((tonic + step) % 12) + own));
      const line = buildLine('left', even(keys, 0.5), { tempo: 100, bar: 3 });
      const digits = fingerLine(line, handModel()).fingering.slices.map(({ struck }) => struck[0]);
      for (let start = 0; start < keys.length; start += bass.length) {
        measures++;
        const places = [...bass.keys()].map((nth) => start + nth);
        if (new Set(places.map((at) => `${keys[at]} ${digits[at]}`)).size === new Set(bass).size) kept++;
      }
    }
  }
  console.log(`nocturnes: ${kept} of ${measures} measures in which every key keeps its finger`);
  expect(kept).toBeGreaterThanOrEqual(measures * 0.95);
});
