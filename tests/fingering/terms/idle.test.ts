import { expect, it } from 'vitest';
import { idle } from '#core/fingering/cost/terms/stated/idle.js';
import { type Case, costs } from './counted.js';

const everywhere = (own: Case, mm: number): void => {
  for (const hand of ['right', 'left'] as const) {
    for (const by of ['usage', 'movement'] as const) expect(costs(idle, { ...own, hand }, by)).toBe(mm);
  }
};

it.each<[string, Case, number]>([
  ['a minor third below 5', { onsets: [[69, 74, 77]], digits: '145' }, 32],
  ['a major third below 5', { onsets: [[66, 73, 77]], digits: '145' }, 32],
  ['a tone below 5', { onsets: [[67, 72, 74]], digits: '145' }, 0],
  ['3 has a key of its own', { onsets: [[60, 66, 69, 72]], digits: '1345' }, 0],
  ['by 3', { onsets: [[69, 74, 77]], digits: '135' }, 0],
  ['without 5', { onsets: [[60, 64, 67]], digits: '124' }, 0],
  ['two keys', { onsets: [[74, 77]], digits: '45' }, 0],
  ['a third in a chord of four keys', { onsets: [[60, 64, 69, 72]], digits: '1245' }, 0],
  ['a fourth in a chord of four keys', { onsets: [[60, 64, 67, 72]], digits: '1245' }, 32],
])('4 in the place of an idle 3: %s', (_, own, mm) => everywhere(own, mm));

it.each<[string, Case, number]>([
  ['3 to 5, a tone up', { onsets: [60, 62], digits: '3 5' }, 10],
  ['5 to 3, a semitone down', { onsets: [65, 64], digits: '5 3' }, 10],
  ['2 to 5, a tone up', { onsets: [60, 62], digits: '2 5' }, 20],
  ['2 to 4 over a third', { onsets: [60, 63], digits: '2 4' }, 0],
  ['neighbouring fingers', { onsets: [60, 62], digits: '3 4' }, 0],
  // The chromatic scale's own fingers.
  ['the thumb and 3', { onsets: [60, 61], digits: '1 3' }, 0],
  ['against their order', { onsets: [60, 62], digits: '5 3' }, 0],
  ['the same key', { onsets: [60, 60], digits: '3 5' }, 0],
  ['after a breath', { onsets: [60, { keys: [62], phraseStart: true }], digits: '3 5' }, 0],
  ['beside a held key', { onsets: [{ keys: [52], holds: 2 }, 60, 62], digits: '1 13 15' }, 10],
])('fingers left out at a step: %s', (_, own, mm) => everywhere(own, mm));
