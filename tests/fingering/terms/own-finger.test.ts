import { expect, it } from 'vitest';
import { ownFinger } from '#core/fingering/cost/terms/stated/own-finger.js';
import { type Case, costs, type Onset } from './counted.js';

const at = (seconds: number, ...keys: number[]): Onset => ({ keys, seconds });
const held = (key: number): Onset => ({ keys: [key], holds: 4 });

function everywhere(own: Case, mm: number): void {
  for (const hand of ['right', 'left'] as const) {
    for (const by of ['usage', 'movement'] as const) expect(costs(ownFinger, { ...own, hand }, by)).toBe(mm);
  }
}

it.each<[string, Case, number]>([
  ['to a chord beside it', { onsets: [65, [60, 64]], digits: '3 13' }, 20],
  ['from a chord', { onsets: [[60, 64], 65], digits: '13 3' }, 20],
  ['to a chord of three', { onsets: [65, [60, 64, 69]], digits: '3 135' }, 20],
  ['another finger', { onsets: [65, [60, 64]], digits: '3 12' }, 0],
  ['on its own key', { onsets: [64, [60, 64]], digits: '3 13' }, 0],
  ['over a sixth', { onsets: [69, [60, 64]], digits: '5 15' }, 20],
  ['over more than a sixth', { onsets: [70, [60, 64]], digits: '5 15' }, 0],
  ['in 0.45 s', { onsets: [65, at(0.45, 60, 64)], digits: '3 13' }, 20],
  ['more slowly', { onsets: [65, at(0.5, 60, 64)], digits: '3 13' }, 0],
  ['after a rest', { onsets: [65, { keys: [60, 64], seconds: 0.4, rest: 0.4 }], digits: '3 13' }, 0],
  [
    'from chord to chord',
    {
      onsets: [
        [60, 64],
        [62, 65],
      ],
      digits: '13 13',
    },
    0,
  ],
  ['from key to key', { onsets: [60, 62], digits: '3 3' }, 0],
  ['beside a held key', { onsets: [held(52), 65, [60, 64]], digits: '1 14 134' }, 0],
])('one finger on a key and on another one of a chord: %s', (_, own, mm) => everywhere(own, mm));

it.each<[string, Case, number]>([
  ['a third apart', { onsets: [64, 71, 67, 71], digits: '1 4 1' }, 30],
  ['a fourth apart', { onsets: [64, 71, 69, 71], digits: '1 4 1' }, 30],
  ['a step apart', { onsets: [64, 71, 66, 71], digits: '1 4 1' }, 0],
  ['a tritone apart', { onsets: [64, 76, 70, 76], digits: '1 5 1' }, 0],
  ['over more than an octave', { onsets: [64, 77, 67, 77], digits: '1 5 1' }, 0],
  ['downwards', { onsets: [71, 64, 67, 64], digits: '4 1 4' }, 30],
  ['a finger for each', { onsets: [64, 71, 67, 71], digits: '1 4 2' }, 0],
  ['on to another key', { onsets: [64, 71, 67, 72], digits: '1 4 1' }, 0],
  ['on to a chord', { onsets: [64, 71, 67, [67, 71]], digits: '1 4 1' }, 0],
  [
    'back after a rest',
    { onsets: [64, 71, 67, { keys: [71], seconds: 0.5, rest: 0.4 }], digits: '1 4 1' },
    0,
  ],
  ['after a rest', { onsets: [64, { keys: [71], seconds: 0.5, rest: 0.4 }, 67, 71], digits: '1 4 1' }, 0],
  ['at the end', { onsets: [64, 71, 67], digits: '1 4 1' }, 0],
  ['where the line goes on', { onsets: [60, 62, 64, 62], digits: '1 2 1' }, 0],
  ['on one key', { onsets: [64, 71, 64, 71], digits: '1 4 1' }, 0],
  ['beside a held key', { onsets: [held(52), 64, 71, 67, 71], digits: '1 13 14 13' }, 0],
])('one finger before and behind a key that returns: %s', (_, own, mm) => everywhere(own, mm));
