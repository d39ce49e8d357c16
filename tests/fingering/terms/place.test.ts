import { expect, it } from 'vitest';
import { frame } from '#core/fingering/cost/terms/frame.js';
import { stretch } from '#core/fingering/cost/terms/stretch.js';
import { travel } from '#core/fingering/cost/terms/travel.js';
import { type Case, costs, counted, type Onset } from './counted.js';
import { FRAME, REACH, TRAVEL } from './layouts.js';

/*
 * Values by hand. An octave is 164.5 mm, a white key 23.5, a semitone on the average 13.7083. Over five white keys the tip
 * of a medium hand's 1 lies 47 mm left of that of 3, those of 2 and 4 23.5 mm aside. x is 0 on D4 (62): C4 -23.5, E4 23.5,
 * G4 70.5, C5 141.
 */

const fast = (key: number): Onset => ({ keys: [key], seconds: 0.1 });

it.each<[string, Case, Record<string, number>, number, number]>([
  ['the hand stays', { onsets: [60, 64], digits: '1 3' }, { 'mm: moderate': 0 }, 0, 0],
  // From 1 on C (hand at 23.5) to 2 on G (94).
  ['2 after 1, a fifth up', { onsets: [60, 67], digits: '1 2' }, { 'mm: moderate': 70.5 }, 19.04, 18.33],
  [
    'a large hand',
    { onsets: [60, 67], digits: '1 2', span: '235' },
    { 'mm: moderate': 67.1917 },
    18.14,
    17.47,
  ],
  ['fast', { onsets: [60, { keys: [67], seconds: 0.2 }], digits: '1 2' }, { 'mm: fast': 70.5 }, 22.56, 21.15],
  ['slow', { onsets: [60, { keys: [67], seconds: 0.5 }], digits: '1 2' }, { 'mm: slow': 70.5 }, 21.15, 23.27],
  [
    'after a breath',
    { onsets: [60, { keys: [67], seconds: 0.5, rest: 0.5 }], digits: '1 2' },
    { 'mm: fresh start': 70.5 },
    16.92,
    21.15,
  ],
  // C E G by 1 3 5: (23.5 + 23.5 + 23.5) / 3; D F A by 1 2 5: D 47, F 70.5, A 47, on the average 54.8333.
  [
    'from chord to chord',
    {
      onsets: [
        [60, 64, 67],
        [62, 65, 69],
      ],
      digits: '135 125',
    },
    { 'mm: moderate': 31.3333 },
    8.46,
    8.15,
  ],
])('travel: %s', (_, own, expected, usage, movement) => {
  for (const hand of ['right', 'left'] as const) {
    expect(counted(TRAVEL, travel, { ...own, hand })).toEqual(expected);
    expect(costs(travel, { ...own, hand })).toBe(usage);
    expect(costs(travel, { ...own, hand }, 'movement')).toBe(movement);
  }
});

it.each<[string, Case, Record<string, number>, number, number]>([
  // 1-5 is relaxed to 10 semitones (137.0833 mm) and reaches 15 (205.625): 27.4167 mm over, two fifths of the way.
  [
    'an octave by 1 and 5',
    { onsets: [[60, 72]], digits: '15' },
    { 'reach: together 15 over': 27.4167, 'reach: together 15 strain': 0.0256 },
    19.01,
    32.72,
  ],
  // 1-4: 9 and 14 semitones: 41.125 mm over, three fifths. 1-3: 7 and 12: 68.5417 mm, to its limit.
  [
    'an octave by 1 and 4',
    { onsets: [[60, 72]], digits: '14' },
    { 'reach: together 14 over': 41.125, 'reach: together 14 strain': 0.1296 },
    34.87,
    32.81,
  ],
  [
    'an octave by 1 and 3',
    { onsets: [[60, 72]], digits: '13' },
    { 'reach: together 13 over': 68.5417, 'reach: together 13 strain': 1 },
    250.69,
    250.69,
  ],
  // 184 mm for the small hand, 0.8932 of the medium one's 206: 1-5 relaxed to 122.4433 mm, reaching 183.6650.
  [
    'an octave by 1 and 5, small hand',
    { onsets: [[60, 72]], digits: '15', span: 'small' },
    { 'reach: together 15 over': 42.0566, 'reach: together 15 strain': 0.2227 },
    75.02,
    96.05,
  ],
  // 2-4 rests on 3 semitones (41.125 mm), two white keys are 23.5 apart.
  [
    'a second by 2 and 4',
    { onsets: [[60, 62]], digits: '24' },
    { 'reach: together 24 under relaxed': 17.625 },
    2.47,
    0.88,
  ],
  // 1-2: at rest from 13.7083 mm on, comfortable down to -41.125.
  [
    '2 over the thumb',
    { onsets: [62, 60], digits: '1 2' },
    { 'reach: in time 12 under relaxed': 37.2083 },
    4.84,
    5.95,
  ],
  // No further than 10 semitones: the hand leaps.
  [
    'a leap of an octave',
    { onsets: [60, 72], digits: '1 2' },
    { 'reach: in time 12 over': 68.5417, 'reach: in time 12 strain': 1 },
    16.23,
    14.22,
  ],
  // Without the thumb a semitone further: 6 of 4-5, at rest up to 2, at its limit at 5, (4 / 3) ** 4 of its strain.
  [
    'a leap of an octave by 4 and 5',
    { onsets: [60, 72], digits: '4 5' },
    { 'reach: in time 45 over': 54.8333, 'reach: in time 45 strain': 3.1605 },
    58.5,
    65.08,
  ],
  ['two notes after a breath', { onsets: [60, { keys: [72], phraseStart: true }], digits: '1 2' }, {}, 0, 0],
  ['one finger', { onsets: [60, 72], digits: '1 1' }, {}, 0, 0],
  ['on a key struck three times fast', { onsets: [60, fast(60), fast(60)], digits: '3 2 1' }, {}, 0, 0],
  ['on from there', { onsets: [60, fast(60), fast(60), fast(64)], digits: '3 2 1 5' }, {}, 0, 0],
  [
    'on from two fast strokes',
    { onsets: [60, fast(60), fast(72)], digits: '3 1 2' },
    { 'reach: in time 12 over': 68.5417, 'reach: in time 12 strain': 1 },
    16.23,
    14.22,
  ],
])('stretch: %s', (_, own, expected, usage, movement) => {
  for (const hand of ['right', 'left'] as const) {
    expect(counted(REACH, stretch, { ...own, hand })).toEqual(expected);
    expect(costs(stretch, { ...own, hand })).toBe(usage);
    expect(costs(stretch, { ...own, hand }, 'movement')).toBe(movement);
  }
});

it('stretch: every pair of a chord, none of a thumb on two keys', () => {
  expect(Object.keys(counted(REACH, stretch, { onsets: [[60, 64, 67, 72]], digits: '1235' }))).toEqual([
    // C-E by 1 2 (5 semitones at rest) and C-G by 1 3 (7) are relaxed; E-G by 2 3 (2), E-C by 2 5 (6) and G-C by 3 5 (4) are not.
    'reach: together 15 over',
    'reach: together 15 strain',
    'reach: together 23 over',
    'reach: together 23 strain',
    'reach: together 25 over',
    'reach: together 25 strain',
    'reach: together 35 over',
    'reach: together 35 strain',
  ]);
  expect(counted(REACH, stretch, { onsets: [[60, 62, 67]], digits: '113' })).toEqual({});
});

it.each<[string, Case, Record<string, number>, number]>([
  ['1 3 5', { onsets: [[60, 64, 67]], digits: '135' }, {}, 0],
  ['1 2 4', { onsets: [[60, 64, 67]], digits: '124' }, { 'outside: 4 for 5': 1 }, 25.39],
  ['1 2 3', { onsets: [[60, 64, 67]], digits: '123' }, { 'outside: neither': 1 }, 70],
  ['2 3 5', { onsets: [[60, 64, 67]], digits: '235' }, { 'outside: no thumb': 1 }, 70],
  [
    '2 3 4',
    { onsets: [[60, 64, 67]], digits: '234' },
    { 'outside: no thumb': 1, 'outside: 4 for 5': 1 },
    95.39,
  ],
  ['two keys', { onsets: [[64, 67]], digits: '23' }, {}, 0],
  ['a held key', { onsets: [{ keys: [60], holds: 1 }, [64, 67]], digits: '2 234' }, {}, 0],
])('frame: %s', (_, own, expected, mm) => {
  for (const hand of ['right', 'left'] as const) {
    expect(counted(FRAME, frame, { ...own, hand })).toEqual(expected);
    expect(costs(frame, { ...own, hand })).toBe(mm);
  }
});
