import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '../../packages/core/src/anatomy/hand.js';
import { viewLine } from '../../packages/core/src/fingering/view.js';
import type { Hand } from '../../packages/core/src/hands/line.js';
import { Ledger, leastOfFingerings } from '../fingering/enumerate.js';
import { happenings, lineOf } from '../fingering/lines.js';
import { Ranking } from './rank.js';

const hand = handModel();
const NOTES = 4;
const ALL = Array.from({ length: 5 ** NOTES }, (_, nth) =>
  nth
    .toString(5)
    .padStart(NOTES, '0')
    .replaceAll(/\d/g, (digit) => String(Number(digit) + 1)),
);

it('ranks as a comparison with every fingering does', () => {
  fc.assert(
    fc.property(
      happenings({ keys: 1, holds: 0, ambit: 9 }, NOTES, NOTES),
      fc.constantFrom<Hand>('right', 'left'),
      fc.nat(ALL.length - 1),
      (events, side, nth) => {
        const line = lineOf(side, events);
        const ranking = new Ranking(line, hand);
        const costs = ALL.map((digits) => ranking.cost(digits));
        expect(ranking.least).toBeCloseTo(Math.min(...costs), 6);
        expect(ranking.least).toBeCloseTo(
          leastOfFingerings(new Ledger(viewLine(line, hand, false), hand)),
          6,
        );
        const own = costs[nth]!;
        expect(ranking.cheaper(own, ALL.length)).toBe(costs.filter((cost) => cost < own - 1e-6).length);
      },
    ),
    { numRuns: 25 },
  );
});
