import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { candidatesFor } from '#core/fingering/view/candidates.js';
import type { Wanted } from '#core/fingering/view/holds.js';
import type { Finger } from '#core/score/model.js';

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
