import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { candidatesFor } from '#core/fingering/view/candidates.js';
import type { Wanted } from '#core/fingering/view/holds.js';
import type { Finger } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { heldBy } from './restated/candidates.js';

const wanted = fc
  .uniqueArray(
    fc.record({
      key: fc.integer({ min: 45, max: 56 }),
      struck: fc.boolean(),
      pedalled: fc.boolean(),
      fixed: fc.option(fc.constantFrom<Finger>(1, 2, 3, 4, 5), { freq: 4, nil: undefined }),
    }),
    { minLength: 1, maxLength: 6, selector: ({ key }) => key },
  )
  .map((all) =>
    all
      .map((own): Wanted => ({ ...own, fixed: own.struck ? own.fixed : undefined }))
      .sort((a, b) => a.key - b.key),
  );

it('the same keys in another octave have the same fingers, and the same keys are let go', () => {
  let partial = 0;
  fc.assert(
    fc.property(wanted, fc.constantFrom(-24, -12, 12, 36), fc.boolean(), (all, shift, rolled) => {
      const hand = handModel('small');
      const { x: _here, ...here } = candidatesFor(all, hand, rolled);
      const { x: _there, ...there } = candidatesFor(
        all.map((own) => ({ ...own, key: own.key + shift })),
        hand,
        rolled,
      );
      expect(there).toEqual({ ...here, keys: here.keys.map((key) => key + shift) });
      if (here.kept.length < all.length) partial++;
    }),
    {
      numRuns: 2000,
      examples: [
        [
          [
            { key: 53, struck: true, pedalled: false, fixed: 3 },
            { key: 54, struck: false, pedalled: false, fixed: undefined },
            { key: 58, struck: false, pedalled: false, fixed: undefined },
            { key: 59, struck: true, pedalled: false, fixed: undefined },
          ],
          -12,
          false,
        ],
      ],
    },
  );
  expect(partial).toBeGreaterThan(0);
});

/** A digit on one key in ten. */
const digit = fc.oneof(
  { weight: 9, arbitrary: fc.constant(undefined) },
  { weight: 1, arbitrary: fc.constantFrom<Finger>(1, 2, 3, 4, 5) },
);

it('are all the ways that the description allows, and no others', () => {
  const draws = rounds(500, 20_000);
  const counts = { whole: 0, letGo: 0, rolled: 0, digits: 0, reach: 0, thumbs: 0 };
  const texture = (min: number, max: number, length: number) =>
    fc.uniqueArray(
      fc.record({
        key: fc.integer({ min, max }),
        struck: fc.constantFrom(true, true, true, false),
        pedalled: fc.boolean(),
        fixed: digit,
      }),
      { minLength: 1, maxLength: length, selector: ({ key }) => key },
    );
  const keys = fc.oneof(texture(45, 56, 6), texture(45, 64, 5), texture(45, 72, 7), texture(40, 80, 3));
  fc.assert(
    fc.property(keys, fc.integer({ min: 150, max: 260 }), fc.boolean(), (drawn, span, rolled) => {
      const all = drawn
        .map((own): Wanted => ({ ...own, fixed: own.struck ? own.fixed : undefined }))
        .sort((a, b) => a.key - b.key);
      const own = candidatesFor(all, handModel(span), rolled);
      const candidates = own.candidates.map(({ fingers }) => fingers.join(''));
      const expected = heldBy(all, span, rolled);
      expect({ kept: own.kept, candidates: [...candidates].sort(), trouble: own.trouble }).toEqual(expected);
      expect(own.candidates.map(({ name }) => name)).toEqual(candidates.map(Number));
      expect(own.keys).toEqual(own.kept.map((at) => all[at]!.key));
      expect(own.struck).toEqual(own.kept.map((at) => all[at]!.struck));
      const kind = own.trouble !== 'none' ? own.trouble : own.kept.length === all.length ? 'whole' : 'letGo';
      counts[kind]++;
      if (candidates.some((fingers) => fingers.startsWith('11'))) counts.thumbs++;
      if (rolled && kind !== 'reach' && heldBy(all, span, false).trouble !== own.trouble) counts.rolled++;
    }),
    draws,
  );
  console.log(`candidates: ${JSON.stringify(counts)}`);
  for (const count of Object.values(counts)) expect(count).toBeGreaterThan(draws.numRuns / 150);
});
