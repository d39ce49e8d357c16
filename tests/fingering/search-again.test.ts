import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import type { Bias, Objective } from '#core/fingering/cost/objective.js';
import { prepare } from '#core/fingering/finger.js';
import { Search } from '#core/fingering/search/forward.js';
import { rounds } from '../rounds.js';
import { type Happening, happenings, lineOf } from './lines.js';

/** Changes of what single candidates pay: a share of the line, which candidate, mm. */
const change = fc.record({
  where: fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
  candidate: fc.nat(10),
  mm: fc.integer({ min: 0, max: 60 }),
});
const LINES: fc.Arbitrary<readonly Happening[]> = fc.oneof(
  happenings({ keys: 1, holds: 0, ambit: 14 }, 30, 60),
  happenings({ keys: 3, holds: 2, ambit: 16, digits: true }, 20, 40),
);

function objectiveOf(events: readonly Happening[]): Objective {
  return prepare(lineOf('right', events), handModel('medium'), {}).objective;
}

function changed(
  objective: Objective,
  bias: Bias,
  changes: readonly { where: number; candidate: number; mm: number }[],
) {
  const next = objective.views.map((_, at) => bias[at]);
  for (const { where, candidate, mm } of changes) {
    const at = Math.floor(where * next.length);
    const { length } = objective.views[at]!.candidates;
    next[at] = Array.from({ length }, (_, nth) => (nth === candidate % length ? mm : (next[at]?.[nth] ?? 0)));
  }
  return next;
}

/** By slice, from the first: the least costs of all prefixes. */
function allStates(search: Search, { views }: Objective): readonly (readonly number[])[] {
  return views
    .map((_, at) => at)
    .reverse()
    .map((at) => {
      const { costs, start, end } = search.statesOf(at);
      return [...costs.subarray(start, end)];
    })
    .reverse();
}

describe('a search that is used again with another bias', () => {
  it('finds what a new one finds, at the same cost, with the same costs of all prefixes', () => {
    fc.assert(
      fc.property(
        LINES,
        fc.array(fc.array(change, { minLength: 0, maxLength: 3 }), { minLength: 2, maxLength: 5 }),
        fc.boolean(),
        (events, series, looking) => {
          const plain = objectiveOf(events);
          const again = new Search();
          again.find(plain);
          let bias: Bias = [];
          for (const changes of series) {
            bias = changed(plain, bias, changes);
            const [objective, fresh] = [plain.with(bias), new Search()];
            expect(again.find(objective)).toEqual(fresh.find(objective));
            if (looking) expect(allStates(again, objective)).toEqual(allStates(fresh, objective));
          }
          expect(again.find(plain)).toEqual(new Search().find(plain));
        },
      ),
      rounds(30),
    );
  });

  it('finds what a new one finds after a search of another line, or with other extra costs', () => {
    const [first, second] = fc.sample(LINES, { numRuns: 2, seed: 5 }).map(objectiveOf) as [
      Objective,
      Objective,
    ];
    const again = new Search();
    const slices = new Map([[3, { own: new Float64Array(first.count(3) * 7).map((_, cell) => cell) }]]);
    for (const objective of [first, second, first, first.with(undefined, [{ name: 'extra', slices }]), first])
      expect(again.find(objective)).toEqual(new Search().find(objective));
  });
});
