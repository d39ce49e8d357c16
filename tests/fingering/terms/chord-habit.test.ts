import { expect, it } from 'vitest';
import { chord } from '#core/fingering/cost/habits/chord.js';
import { type Case, costs, counted } from './counted.js';
import { CHORD } from './layouts.js';

it.each<[string, Case, Record<string, number>, number]>([
  [
    'D major alone',
    { onsets: [[62, 66, 69]], digits: '124' },
    {
      'key: 1 white struck': 1,
      'key: 2 black struck': 1,
      'key: 4 white struck': 1,
      'neighbours: 1 2 4 white-black': 1,
      'neighbours: 2 4 3 black-white': 1,
      'outer: 1 4 7': 1,
      'triad: 1 2 4 close': 1,
      'melody: 1 4 same same': 1,
    },
    -12,
  ],
  [
    'G C E: a fourth below is wide',
    { onsets: [[55, 60, 64]], digits: '135' },
    {
      'key: 1 white struck': 1,
      'key: 3 white struck': 1,
      'key: 5 white struck': 1,
      'neighbours: 1 3 5 white-white': 1,
      'neighbours: 3 5 4 white-white': 1,
      'outer: 1 5 9': 1,
      'triad: 1 3 5 wide below': 1,
      'melody: 1 5 same same': 1,
    },
    5,
  ],
  [
    'a sixth after a third',
    { onsets: [[64, 67], [60, 69], 65], digits: '13 15' },
    {
      'key: 1 white struck': 1,
      'key: 5 white struck': 1,
      'neighbours: 1 5 9 white-white': 1,
      'outer: 1 5 9': 1,
      // In by a step down to what was before, out by a third down.
      'melody: 1 5 step down third down': 1,
      'highest: 3 5 2': 1,
      'lowest: 1 1 -4': 1,
      // C from E, A from G.
      'nearest: 1 1 -4': 1,
      'nearest: 3 5 2': 1,
    },
    12.5,
  ],
  [
    'a key struck beside a held one',
    { onsets: [{ keys: [60], holds: 2 }, 67, 70], digits: '1 14 15' },
    {
      'key: 1 white held': 1,
      'key: 5 black struck': 1,
      'neighbours: 1 5 10 white-black': 1,
      'outer: 1 5 10': 1,
      'melody: 1 5 third down same': 1,
      'highest: 4 5 3': 1,
      'lowest: 1 1 0': 1,
      'nearest: 4 5 3': 1,
    },
    17.5,
  ],
  [
    'a single key after a chord: of two as near the lower',
    { onsets: [[60, 64], 62], digits: '13 2' },
    { 'highest: 3 2 -2': 1, 'lowest: 1 2 2': 1, 'nearest: 1 2 2': 1 },
    -6,
  ],
  ['two single keys', { onsets: [60, 62], digits: '1 2' }, {}, 0],
])('habit: chord, %s', (_, own, expected, mm) => {
  for (const hand of ['right', 'left'] as const) {
    expect(counted(CHORD, chord, { ...own, hand })).toEqual(expected);
    expect(costs(chord, { ...own, hand })).toBe(mm);
  }
});
