import { expect, it } from 'vitest';
import { chain } from '#core/fingering/cost/habits/chain.js';
import { single } from '#core/fingering/cost/habits/single.js';
import { step } from '#core/fingering/cost/habits/step.js';
import { intervalIndex } from '#core/fingering/cost/terms/term.js';
import { AUGMENTED_SECOND } from '#core/fingering/view/interval.js';
import {
  type Case,
  COLOUR,
  costs,
  counted,
  DIRECTION,
  FINGER,
  INTERVAL,
  type Layout,
  PACE,
  STRIDE,
} from './counted.js';
import { CHAIN } from './layouts.js';

const numbers = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, nth) => `${from + nth}`);
const ROOM = ['0', '1-2', '3-4', '5', '6-7', '8-9', '10-11', '12'];
const COLOURS = COLOUR.flatMap((one) => COLOUR.map((other) => `${one}-${other}`));
/** Of two keys before to two after, a bit each from the first, which is the least. */
const FIVE_COLOURS = Array.from({ length: 32 }, (_, bits) =>
  [0, 1, 2, 3, 4].map((at) => ((bits >> at) & 1 ? 'b' : 'w')).join(''),
);

const PLACE: Layout = {
  key: [FINGER, COLOUR],
  octave: [FINGER, ['ahead', 'behind', 'around'], ROOM, ROOM],
  turn: [FINGER, numbers(-6, 6), numbers(-6, 6)],
  beat: [FINGER, ['off', 'on'], DIRECTION, DIRECTION],
  colours: [FINGER, FIVE_COLOURS, DIRECTION],
  neighbours: [FINGER, STRIDE, STRIDE],
  since: [FINGER, numbers(-12, 12)],
  until: [FINGER, numbers(-12, 12)],
};

it('habit: place, a note of a scale with a black key ahead', () => {
  // D E F sharp G, of which E by 2: C is a fourth below the end, so the music spans D to G.
  const own: Case = { onsets: [62, { keys: [64], onBeat: true }, 66, 67], digits: '1 2' };
  expect(counted(PLACE, single, own)).toEqual({
    'key: 2 white': 1,
    'octave: 2 ahead 0 3-4': 1,
    'octave: 2 behind 1-2 0': 1,
    'octave: 2 around 1-2 3-4': 1,
    'turn: 2 1 2': 1,
    'beat: 2 on up up': 1,
    'colours: 2 wwwbw up': 1,
    'neighbours: 2 step down step up': 1,
    'since: 2 2': 1,
    'until: 2 3': 1,
  });
  expect(costs(single, own)).toBe(1.5);
});

it('habit: place, the turn of a line over more than an octave, on a black key', () => {
  // C4, A4, B flat 5 (22 semitones up), A4: from the top only what lies within an octave counts.
  const own: Case = { onsets: [60, 69, 82, 69], digits: '1 2 5' };
  expect(counted(PLACE, single, own)).toEqual({
    'key: 5 black': 1,
    'octave: 5 ahead 0 0': 1,
    'octave: 5 behind 0 0': 1,
    'octave: 5 around 0 0': 1,
    'turn: 5 2 -1': 1,
    'beat: 5 off up down': 1,
    'colours: 5 wwbww down': 1,
    'neighbours: 5 leap down leap down': 1,
    // 22 and 13 semitones, less an octave.
    'since: 5 10': 1,
    'until: 5 -1': 1,
  });
  expect(costs(single, own)).toBe(6.5);
  expect(counted(PLACE, single, { onsets: [[60, 64]], digits: '13' })).toEqual({});
});

const STEP: Layout = {
  interval: [FINGER, FINGER, INTERVAL],
  coloured: [FINGER, FINGER, INTERVAL, COLOURS],
  break: [FINGER, FINGER, INTERVAL],
  paced: [FINGER, FINGER, STRIDE, PACE],
};

it.each<[string, Case, Record<string, number>, number]>([
  [
    'a step up',
    { onsets: [64, 66], digits: '2 3' },
    { 'interval: 2 3 2': 1, 'coloured: 2 3 2 white-black': 1, 'paced: 2 3 step up moderate': 1 },
    -3,
  ],
  [
    'a sixth down, fast',
    { onsets: [70, { keys: [61], seconds: 0.1 }], digits: '5 1' },
    { 'interval: 5 1 -9': 1, 'coloured: 5 1 -9 black-black': 1, 'paced: 5 1 leap down fast': 1 },
    0.5,
  ],
  [
    'a fifth is no leap here',
    { onsets: [60, 67], digits: '1 5' },
    { 'interval: 1 5 7': 1, 'coloured: 1 5 7 white-white': 1, 'paced: 1 5 third up moderate': 1 },
    5.5,
  ],
  [
    'two octaves, after a breath',
    { onsets: [60, { keys: [84], phraseStart: true, seconds: 0.5 }], digits: '1 5' },
    { 'break: 1 5 15': 1, 'paced: 1 5 leap up slow': 1 },
    -0.5,
  ],
  ['from a chord', { onsets: [[60, 64], 65], digits: '13 4' }, {}, 0],
])('habit: step, %s', (_, own, expected, mm) => {
  for (const hand of ['right', 'left'] as const) {
    expect(counted(STEP, step, { ...own, hand })).toEqual(expected);
    expect(costs(step, { ...own, hand })).toBe(mm);
  }
});

it('intervals of fifteen semitones and more are one, and augmented seconds their own', () => {
  const names = (...intervals: readonly number[]) => intervals.map((own) => INTERVAL[intervalIndex(own)]);
  expect(names(-88, -15, -14, -1, 0, 1, 14, 15, 88)).toEqual([
    '-15',
    '-15',
    '-14',
    '-1',
    '0',
    '1',
    '14',
    '15',
    '15',
  ]);
  expect(names(AUGMENTED_SECOND, -AUGMENTED_SECOND)).toEqual([
    'augmented second up',
    'augmented second down',
  ]);
});

it.each<[string, Case, Record<string, number>, number]>([
  [
    'three single keys',
    { onsets: [60, 64, 62], digits: '1 3 2' },
    { 'skip: 1 2 2': 1, 'directions: 1 3 2 up down': 1, 'strides: 1 3 2 third up step down': 1 },
    -3,
  ],
  [
    'a leap and a key repeated',
    { onsets: [60, 67, 67], digits: '1 5 4' },
    { 'skip: 1 4 7': 1, 'directions: 1 5 4 up same': 1, 'strides: 1 5 4 leap up same': 1 },
    2.5,
  ],
  [
    'a chord among them',
    { onsets: [60, [64, 67], 65], digits: '1 35 4' },
    {
      'skip, highest: 1 4 5': 1,
      'skip, lowest: 1 4 5': 1,
      'directions, highest: 1 5 4 up down': 1,
      'directions, lowest: 1 3 4 up up': 1,
    },
    0.5,
  ],
  [
    'two voices: the lower one stays',
    { onsets: [{ keys: [52], holds: 2 }, 60, 62], digits: '1 13 14' },
    {
      'skip, highest: 1 4 10': 1,
      'skip, lowest: 1 1 0': 1,
      'directions, highest: 1 3 4 up up': 1,
      'directions, lowest: 1 1 1 same same': 1,
    },
    -5.5,
  ],
  [
    'three chords',
    {
      onsets: [
        [60, 64, 67],
        [60, 65, 69],
        [59, 62, 67],
      ],
      digits: '135 125 124',
    },
    {
      'skip, highest: 5 4 0': 1,
      'skip, lowest: 1 1 -1': 1,
      'directions, highest: 5 5 4 up down': 1,
      'directions, lowest: 1 1 1 same down': 1,
    },
    -1,
  ],
])('habit: chain, %s', (_, own, expected, mm) => {
  for (const hand of ['right', 'left'] as const) {
    expect(counted(CHAIN, chain, { ...own, hand })).toEqual(expected);
    expect(costs(chain, { ...own, hand })).toBe(mm);
  }
});
