import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { eachFingering, Ledger } from '../fingering/enumerate.js';
import { again, happenings, lineOf } from '../fingering/lines.js';
import { Likeness } from '../fingering/restated/likeness.js';
import { rounds } from '../rounds.js';
import { Ranking } from './rank.js';

const hand = handModel();
const NARROW = { keys: 1, holds: 0, ambit: 9 };

it('ranks as a comparison with every fingering does, figures that come twice included', () => {
  let unlike = 0;
  fc.assert(
    fc.property(
      fc.oneof(
        happenings(NARROW, 4, 4),
        happenings(NARROW, 2, 2).map((events) => again(events, 3, true)),
      ),
      fc.constantFrom<Hand>('right', 'left'),
      fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
      (events, side, share) => {
        const line = lineOf(side, events);
        const ranking = new Ranking(line, hand);
        const views = viewLine(line, hand, false);
        const likeness = new Likeness(views);
        const nth = Math.floor(share * 5 ** views.length);
        const costs: number[] = [];
        eachFingering(new Ledger(views, hand), (moved, path) => {
          const paid = likeness.paid(path);
          if (paid > 0) unlike++;
          costs.push(moved + paid);
          if (costs.length !== nth + 1) return;
          expect(ranking.cost(path.map((candidate) => candidate + 1).join(''))).toBe(moved + paid);
        });
        const own = costs[nth]!;
        expect(ranking.cheaper(own, costs.length)).toBe(costs.filter((cost) => cost < own).length);
      },
    ),
    rounds(8, 60),
  );
  expect(unlike).toBeGreaterThan(0);
});
