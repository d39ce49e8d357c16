import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import type { Bias } from '#core/fingering/cost/objective.js';
import { leastChoice, Search } from '#core/fingering/search/forward.js';
import { viewLine } from '#core/fingering/view/view.js';
import { objectiveOf } from './enumerate.js';
import { happenings, lineOf } from './lines.js';

const model = handModel();
const texture = { keys: 2, holds: 1, ambit: 14 };

/** For each of three searches: at which slices, as shares of the line, candidates pay how much. */
const charges = fc.array(
  fc.array(
    fc.record({
      place: fc.double({ min: 0, max: 0.999, noNaN: true }),
      costs: fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 5, maxLength: 5 }),
    }),
    { maxLength: 4 },
  ),
  { minLength: 3, maxLength: 3 },
);

it('a search that takes over what earlier ones found ends as it would alone', () => {
  let [taken, slices] = [0, 0];
  fc.assert(
    fc.property(happenings(texture, 1, 60), charges, (events, all) => {
      const views = viewLine(lineOf('right', events), model, true);
      const objective = objectiveOf(views, model);
      const search = new Search();
      search.find(objective);
      for (const own of all) {
        const bias: (readonly number[] | undefined)[] = views.map(() => undefined);
        for (const { place, costs } of own) {
          const at = Math.floor(place * views.length);
          bias[at] = views[at]!.candidates.map((_, nth) => costs[nth % costs.length]!);
        }
        const biased = objective.with(bias as Bias);
        expect(search.again(biased)).toEqual(leastChoice(biased));
        taken += search.taken;
        slices += views.length;
      }
    }),
    { numRuns: 200 },
  );
  console.log(`searches: ${taken} of ${slices} slices taken over`);
  expect(taken).toBeGreaterThan(slices / 10);
  expect(taken).toBeLessThan(slices);
});
