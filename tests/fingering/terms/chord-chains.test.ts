import { expect, it } from 'vitest';
import { chain } from '#core/fingering/cost/habits/chain.js';
import { type Case, counted, type Onset } from './counted.js';
import { CHAIN } from './layouts.js';

/* What the habits of three chords in a row count, whatever it weighs. */

const held = (key: number, holds: number): Onset => ({ keys: [key], holds });

it.each<[string, Case, Record<string, number>]>([
  [
    'sixths going up',
    {
      onsets: [
        [60, 69],
        [62, 71],
        [64, 72],
      ],
      digits: '14 15 25',
    },
    {
      'skip, highest: 4 5 3': 1,
      'skip, lowest: 1 2 4': 1,
      'directions, highest: 4 5 5 up up': 1,
      'directions, lowest: 1 1 2 up up': 1,
    },
  ],
  [
    'contrary motion, and a single key between',
    { onsets: [[60, 64], 62, [59, 65]], digits: '12 3 15' },
    {
      'skip, highest: 2 5 1': 1,
      'skip, lowest: 1 1 -1': 1,
      'directions, highest: 2 3 5 down up': 1,
      'directions, lowest: 1 3 1 up down': 1,
    },
  ],
  [
    'a chord that is struck three times',
    {
      onsets: [
        [60, 64],
        [60, 64],
        [60, 64],
      ],
      digits: '13 24 13',
    },
    {
      'skip, highest: 3 3 0': 1,
      'skip, lowest: 1 1 0': 1,
      'directions, highest: 3 4 3 same same': 1,
      'directions, lowest: 1 2 1 same same': 1,
    },
  ],
  [
    'the lower voice moves under a held key',
    { onsets: [held(72, 2), 62, 60], digits: '5 25 15' },
    {
      'skip, highest: 5 5 0': 1,
      'skip, lowest: 5 1 -12': 1,
      'directions, highest: 5 5 5 same same': 1,
      'directions, lowest: 5 2 1 down down': 1,
    },
  ],
  [
    'a leap of chords',
    {
      onsets: [
        [40, 43],
        [52, 55],
        [72, 76],
      ],
      digits: '13 24 35',
    },
    {
      'skip, highest: 3 5 15': 1,
      'skip, lowest: 1 3 15': 1,
      'directions, highest: 3 4 5 up up': 1,
      'directions, lowest: 1 2 3 up up': 1,
    },
  ],
  ['through nothing', { onsets: [[60, 64], { keys: [] }, [60, 64]], digits: '13  13' }, {}],
])('chains of chords: %s', (_, own, expected) => {
  for (const hand of ['right', 'left'] as const)
    expect(counted(CHAIN, chain, { ...own, hand })).toEqual(expected);
});
