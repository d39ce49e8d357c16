import { expect, it } from 'vitest';
import { CostTable, heldCost } from '#core/fingering/cost/slice-costs.js';
import { endurance } from '#core/fingering/cost/terms/stated/endurance.js';
import { leap } from '#core/fingering/cost/terms/stated/leap.js';
import { repetition } from '#core/fingering/cost/terms/stated/repetition.js';
import type { Term } from '#core/fingering/cost/terms/term.js';
import { WEIGHTS } from '#core/fingering/cost/weights.js';
import { type Case, costs, type Onset, seen } from './counted.js';

/* What is stated, not fitted, where keys are held: mm equivalents. */

const held = (key: number, holds: number): Onset => ({ keys: [key], holds });

const quick = (...keys: number[]): Onset => ({ keys, seconds: 0.1 });
const trillOver = (held: Onset, low: string, high: string): Case => ({
  onsets: [held, ...Array.from({ length: 8 }, (_, nth) => quick(64 + (nth % 2)))],
  digits: ['1', ...Array.from({ length: 8 }, (_, nth) => (nth % 2 === 0 ? low : high))].join(' '),
});

it.each<[string, Term, Case, number]>([
  ['a trill above a held key', endurance, trillOver(held(52, 9), '13', '14'), 14],
  ['a trill below a held key', endurance, trillOver(held(76, 9), '15', '25'), 2],
  [
    'a trill of thirds',
    endurance,
    {
      onsets: Array.from({ length: 8 }, (_, nth) => quick(64 + (nth % 2), 67)),
      digits: '13 24 13 24 13 24 13 24',
    },
    0,
  ],
  // From memory: 15 mm for each keystroke a second beyond 4; 12 a second here.
  [
    'a key repeated below a held one',
    repetition,
    { onsets: [held(76, 3), quick(64), quick(64)], digits: '5 15 15' },
    136,
  ],
  [
    'two keys of a chord repeated beside a held one',
    repetition,
    { onsets: [held(52, 3), quick(60, 64), quick(60, 64)], digits: '1 135 135' },
    0,
  ],
  // 8 mm for each finger from the outer one.
  ['a key above two', leap, { onsets: [[60, 64], 72], digits: '13 3' }, 16],
  ['a key below two', leap, { onsets: [[60, 64], 52], digits: '13 3' }, 16],
  ['a key below two, first', leap, { onsets: [52, [60, 64]], digits: '4 13' }, 24],
  ['a key within reach of both', leap, { onsets: [53, [60, 64]], digits: '4 13' }, 0],
  ['a key beside one that is held', leap, { onsets: [held(52, 2), 64], digits: '1 12' }, 0],
])('%s', (_, term, own, mm) => {
  for (const hand of ['right', 'left'] as const) {
    for (const by of ['usage', 'movement'] as const) expect(costs(term, { ...own, hand }, by)).toBe(mm);
  }
});

/** What the silent changes of finger at the last onset cost. */
function changes(own: Case): number {
  const { views, fingers } = seen(own);
  const [before, view] = views.slice(-2);
  const [from, to] = fingers.slice(-2);
  return heldCost(before!, view!, from!, to!);
}

it.each<[string, Case, number]>([
  ['that keeps its finger', { onsets: [held(52, 1), 64], digits: '1 13' }, 0],
  [
    'that changes it, 0.35 s after the last onset',
    { onsets: [held(52, 1), { keys: [64], seconds: 0.35 }], digits: '2 13' },
    60,
  ],
  [
    'that changes it sooner: there is no time',
    { onsets: [held(52, 1), { keys: [64], seconds: 0.34 }], digits: '2 13' },
    2000,
  ],
  [
    'that goes over to a finger which has just played: it is not free',
    { onsets: [held(52, 2), 64, { keys: [65], seconds: 1 }], digits: '1 12 25' },
    2000,
  ],
  [
    'that goes over to a free finger',
    { onsets: [held(52, 2), 64, { keys: [65], seconds: 1 }], digits: '2 23 15' },
    60,
  ],
  [
    'of two that both change',
    {
      onsets: [
        { keys: [52, 55], holds: 1 },
        { keys: [64], seconds: 1 },
      ],
      digits: '23 145',
    },
    120,
  ],
  ['that is struck again', { onsets: [held(52, 1), { keys: [52, 64], seconds: 0.1 }], digits: '2 13' }, 0],
  ['that is let go', { onsets: [52, { keys: [64], seconds: 0.1 }], digits: '2 1' }, 0],
])('a held key %s', (_, own, mm) => {
  for (const hand of ['right', 'left'] as const) expect(changes({ ...own, hand })).toBe(mm);
});

it('a change of finger costs the same whatever was asked before it', () => {
  const at = (seconds: number) => seen({ onsets: [held(52, 1), { keys: [64], seconds }], digits: '2 13' });
  // Of one pace: from 0.25 to 0.45 s.
  const [sooner, just, later] = [0.34, 0.35, 0.36].map(at);
  const { model } = just!;
  /** Of all ways of holding the keys, those that change the finger of the held key for another. */
  const told = (table: CostTable, { views: [before, view] }: ReturnType<typeof seen>): readonly number[] => {
    const costs = table.steps(before!, view!);
    const [from, to] = [before!.candidates, view!.candidates];
    return [...costs].map((cost, nth) => {
      const [a, b] = [from[Math.floor(nth / to.length)]!, to[nth % to.length]!];
      return cost - table.pairs(before!, view!, [a], [b])[0]!;
    });
  };
  const alone = [sooner, just, later].map((own) => told(new CostTable(model, WEIGHTS.usage), own!));
  expect(Math.max(...alone[0]!)).toBe(2000);
  expect(Math.max(...alone[1]!)).toBe(60);
  for (const order of [
    [0, 1, 2],
    [2, 1, 0],
  ]) {
    const table = new CostTable(model, WEIGHTS.usage);
    for (const nth of order) expect(told(table, [sooner, just, later][nth]!)).toEqual(alone[nth]);
  }
});
