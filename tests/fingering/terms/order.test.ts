import { expect, it } from 'vitest';
import { order } from '#core/fingering/cost/terms/stated/order.js';
import { type Case, costs, type Onset } from './counted.js';

const held = (key: number): Onset => ({ keys: [key], holds: 3 });

it.each<[string, Case, number]>([
  ['2 over the thumb below a held key', { onsets: [held(76), 65, 67], digits: '5 15 25' }, 0],
  ['2 over the thumb, downwards', { onsets: [held(76), 65, 64], digits: '5 15 25' }, 25],
  ['the thumb behind 3', { onsets: [held(76), 65, 67], digits: '5 35 15' }, 25],
  ['3 over 2', { onsets: [held(52), 62, 64], digits: '1 13 12' }, 25],
  ['one finger for both', { onsets: [held(52), 62, 64], digits: '1 13 13' }, 0],
  ['the same key', { onsets: [held(52), 62, 62], digits: '1 13 12' }, 0],
  [
    'a key of a chord that is let go',
    {
      onsets: [
        {
          presses: [
            { key: 55, holds: 1, pedalled: false },
            { key: 58, holds: 0, pedalled: false },
          ],
          keys: [],
        },
        62,
      ],
      digits: '15 13',
    },
    25,
  ],
  ['two keys over two', { onsets: [held(74), [62, 64], [60, 62]], digits: '5 125 235' }, 50],
  ['nothing held', { onsets: [62, 64], digits: '3 1' }, 0],
  ['the held keys alone', { onsets: [held(52), 62], digits: '1 13' }, 0],
])('out of the order of the keys: %s', (_, own, mm) => {
  for (const hand of ['right', 'left'] as const) {
    for (const by of ['usage', 'movement'] as const) expect(costs(order, { ...own, hand }, by)).toBe(mm);
  }
});
