import { describe, expect, it } from 'vitest';
import { crossing } from '#core/fingering/cost/terms/crossing.js';
import { hop } from '#core/fingering/cost/terms/hop.js';
import { position } from '#core/fingering/cost/terms/position.js';
import { thumb } from '#core/fingering/cost/terms/thumb.js';
import { type Case, costs, counted, type Layout, type Onset } from './counted.js';
import { CROSSING, HOP, POSITION } from './layouts.js';

const both =
  (layout: Layout, term: Parameters<typeof costs>[0]) =>
  (_: string, own: Case, expected: Record<string, number>, mm: number): void => {
    for (const hand of ['right', 'left'] as const) {
      expect(counted(layout, term, { ...own, hand })).toEqual(expected);
      expect(costs(term, { ...own, hand })).toBe(mm);
    }
  };

it.each<[string, Case, Record<string, number>, number]>([
  [
    'the thumb behind 3, white to white',
    { onsets: [64, 65], digits: '3 1' },
    { 'thumb passes: white white': 1 },
    4.98,
  ],
  [
    'the thumb behind 4 on black',
    { onsets: [66, 67], digits: '4 1' },
    { 'thumb passes: black white': 1 },
    0.08,
  ],
  ['the thumb to a black key', { onsets: [65, 66], digits: '3 1' }, { 'thumb passes: white black': 1 }, 55],
  ['3 over the thumb', { onsets: [65, 64], digits: '1 3' }, { 'over the thumb: white white': 1 }, 6.41],
  [
    '4 over the thumb to a black key',
    { onsets: [67, 66], digits: '1 4' },
    { 'over the thumb: white black': 1 },
    0.84,
  ],
  ['from the thumb on black', { onsets: [66, 65], digits: '1 2' }, { 'over the thumb: black white': 1 }, 55],
  ['3 over 4', { onsets: [64, 65], digits: '4 3' }, { 'others: long': 1 }, 400],
  ['3 on black over 4 on white', { onsets: [65, 66], digits: '4 3' }, { 'others: longer on black': 1 }, 100],
  ['4 on black, 3 on white', { onsets: [66, 67], digits: '4 3' }, { 'others: long': 1 }, 400],
  ['3 on black over 4 a third away', { onsets: [63, 66], digits: '4 3' }, { 'others: long': 1 }, 400],
  ['3 on black over 5', { onsets: [65, 66], digits: '5 3' }, { 'others: long': 1 }, 400],
  ['the thumb behind 5', { onsets: [64, 65], digits: '5 1' }, { 'others: by 5': 1 }, 300],
  ['5 over the thumb', { onsets: [65, 64], digits: '1 5' }, { 'others: by 5': 1 }, 300],
  [
    '5 and the thumb beyond an octave',
    { onsets: [60, 74], digits: '5 1' },
    { 'thumb passes: white white': 1 },
    4.98,
  ],
  [
    'beside a held key',
    { onsets: [{ keys: [52], holds: 2 }, 64, 65], digits: '1 13 12' },
    { 'others: long': 1 },
    400,
  ],
  ['fingers in order', { onsets: [64, 65], digits: '3 4' }, {}, 0],
  ['one finger', { onsets: [64, 65], digits: '3 3' }, {}, 0],
  ['one key', { onsets: [64, 64], digits: '3 1' }, {}, 0],
  ['after a breath', { onsets: [64, { keys: [65], phraseStart: true }], digits: '3 1' }, {}, 0],
  ['from a chord', { onsets: [[60, 64], 65], digits: '13 1' }, {}, 0],
])('crossing: %s', both(CROSSING, crossing));

it.each<[string, Case, Record<string, number>, number]>([
  ['fast', { onsets: [60, { keys: [64], seconds: 0.2 }], digits: '2 2' }, { 'hop: alone fast': 1 }, 240],
  ['moderate', { onsets: [60, 64], digits: '2 2' }, { 'hop: alone moderate': 1 }, 160],
  ['slow', { onsets: [60, { keys: [64], seconds: 0.5 }], digits: '2 2' }, { 'hop: alone slow': 1 }, 120],
  ['a slide of 3', { onsets: [61, 60], digits: '3 3' }, { 'slide: from black': 1 }, 38.13],
  ['no slide to black', { onsets: [60, 61], digits: '3 3' }, { 'hop: alone moderate': 1 }, 160],
  ['in one of two voices', { onsets: [{ keys: [48, 55], holds: 1 }, [57]], digits: '15 154' }, {}, 0],
  [
    'beside a held key',
    { onsets: [{ keys: [48], holds: 2 }, 55, { keys: [59], seconds: 0.1 }], digits: '1 13 13' },
    { 'hop: beside a held key fast': 1 },
    240,
  ],
  ['the same key', { onsets: [60, 60], digits: '2 2' }, {}, 0],
  [
    'chords',
    {
      onsets: [
        [60, 64],
        [62, 65],
      ],
      digits: '13 13',
    },
    {},
    0,
  ],
])('hop: %s', both(HOP, hop));

/* A white key is 1.714286 semitones wide, and 1.5 semitones are within a finger's ease. */
const fast = (key: number): Onset => ({ keys: [key], seconds: 0.1 });

it.each<[string, Case, Record<string, number>, number]>([
  // From 1 to 3 the hand reaches 3.4286 semitones, C to F is 5: 1.5714 away, 0.0714 beyond ease.
  ['turning', { onsets: [60, 67, 65], digits: '1 5 3' }, { 'place: alone turning': 0.0714 }, 0.36],
  // From 1 to 2 1.7143, so 3.2857 away.
  [
    'turning, by the wrong finger',
    { onsets: [60, 67, 65], digits: '1 5 2' },
    { 'place: alone turning': 1.7857 },
    9.05,
  ],
  ['onward', { onsets: [60, 62, 65], digits: '1 2 2' }, { 'place: alone onward': 1.7857 }, 1],
  ['within ease', { onsets: [60, 62, 64], digits: '1 2 3' }, {}, 0],
  ['returning key', { onsets: [60, 64, 60], digits: '1 3 1' }, {}, 0],
  // The hand has moved by 1.7143, 0.2143 beyond ease, and the key has another finger.
  [
    'returning key, another finger',
    { onsets: [60, 64, 60], digits: '1 3 2' },
    { 'place: alone turning': 0.2143, 'place: alone returning key': 1 },
    9.13,
  ],
  ['after a breath', { onsets: [60, { keys: [67], phraseStart: true }, 65], digits: '1 5 2' }, {}, 0],
  [
    'another key by the finger of two notes ago',
    { onsets: [60, 67, 64], digits: '1 5 1' },
    { 'place: alone turning': 2.5, 'place: alone returning finger': 1 },
    27.68,
  ],
  [
    'the same beyond an octave',
    { onsets: [60, 76, 73], digits: '1 5 1' },
    { 'place: alone turning': 11.5 },
    58.31,
  ],
  // Fingers that change on a key repeated fast gather over it; twice is no repetition.
  ['three fast strokes', { onsets: [60, fast(60), fast(60)], digits: '3 2 1' }, {}, 0],
  ['on from three fast strokes', { onsets: [60, fast(60), fast(60), fast(67)], digits: '3 2 1 2' }, {}, 0],
  [
    'three strokes with time',
    { onsets: [60, 60, 60], digits: '3 2 1' },
    { 'place: alone onward': 1.9286, 'place: alone returning key': 1 },
    9.12,
  ],
  [
    'two fast strokes',
    { onsets: [60, fast(60), fast(69)], digits: '3 1 5' },
    { 'place: alone onward': 4.0714 },
    2.28,
  ],
])('position: %s', both(POSITION, position));

const E_HELD = { keys: [52], holds: 4 } as const;

it.each<[string, Case, Record<string, number>, number]>([
  ['in place', { onsets: [E_HELD, 60, 62, 60], digits: '1 13 14 13' }, {}, 0],
  [
    'another finger for the key',
    { onsets: [E_HELD, 60, 62, 60], digits: '1 13 14 12' },
    { 'place: beside a held key turning': 0.2143, 'place: beside a held key returning key': 1 },
    40.02,
  ],
  [
    'another key for the finger',
    { onsets: [E_HELD, 60, 64, 62], digits: '1 13 15 13' },
    { 'place: beside a held key turning': 0.5, 'place: beside a held key returning finger': 1 },
    80.04,
  ],
])('position under a held key: %s', both(POSITION, position));

const THUMB: Layout = { 'in a run': [['note']] };

it.each<[string, Case, Record<string, number>, number]>([
  ['on black in a run by step', { onsets: [64, 66, 68, 69], digits: '2 3 4 1' }, {}, 0],
  ['on black at the end of it', { onsets: [62, 64, 65, 66], digits: '2 3 4 1' }, { 'in a run: note': 1 }, 30],
  ['on black at its start', { onsets: [66, 67, 69, 71], digits: '1' }, { 'in a run: note': 1 }, 30],
  ['on black in a run of two', { onsets: [64, 65, 66], digits: '2 3 1' }, {}, 0],
  ['on black in an arpeggio', { onsets: [56, 60, 63, 68], digits: '2 3 4 1' }, {}, 0],
  ['another finger', { onsets: [62, 64, 65, 66], digits: '2 3 4 5' }, {}, 0],
  ['in a chord', { onsets: [62, 64, 65, [66, 70]], digits: '2 3 4 13' }, {}, 0],
  ['where a run of five notes ends', { onsets: [70, 68, 67, 65, 63], digits: '5 4 3 2 1' }, {}, 0],
  ['where it begins', { onsets: [63, 65, 67, 68, 70], digits: '1' }, {}, 0],
  ['where it turns', { onsets: [70, 68, 67, 65, 63, 65, 67, 68, 70], digits: '5 4 3 2 1' }, {}, 0],
])('thumb on black: %s', both(THUMB, thumb));

/* However the weights are fitted: a pass is easy where the long finger is on black and the thumb on white (common practice). */
const PASSES: readonly [string, from: number, to: number, digits: string][] = [
  ['2 behind', 68, 69, '2 1'],
  ['3 behind', 63, 64, '3 1'],
  ['4 behind', 70, 71, '4 1'],
  ['2 over', 69, 68, '1 2'],
  ['3 over', 64, 63, '1 3'],
  ['4 over', 71, 70, '1 4'],
];
describe.each(['usage', 'movement'] as const)('%s', (by) => {
  it.each(PASSES)(
    'the thumb on white with %s, on black, costs less than any other pass',
    (_, from, to, digits) => {
      const cost = (a: number, b: number) => costs(crossing, { onsets: [a, b], digits }, by);
      const easy = cost(from, to);
      const way = to - from;
      // White to white, the thumb on black and the finger on white, both on black.
      const whites = cost(64, way > 0 ? 65 : 62);
      const wrong = way > 0 ? cost(65, 66) : cost(66, 65);
      const blacks = cost(66, 66 + 2 * way);
      expect(easy).toBeLessThan(whites);
      expect(whites).toBeLessThan(wrong);
      expect(easy).toBeLessThan(blacks);
    },
  );
});
