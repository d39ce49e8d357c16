import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { ExtraCostBuilder } from '#core/fingering/repeats/extra-cost-builder.js';
import { viewLine } from '#core/fingering/view/view.js';
import { lineOf, single } from './lines.js';

/** Depths of the forearm that are told apart. */
const DEPTHS = 7;

/** C4 D4 E4 by 1 2 3, the forearm at the depths 0, 6 and 3. Five fingers stand to choose. */
const views = viewLine(lineOf('right', [60, 62, 64].map(single)), handModel(), true);
const builder = () => new ExtraCostBuilder(views, { path: [0, 1, 2], depths: [0, 6, 3] });
const finite = (costs: Float64Array) =>
  [...costs.keys()].filter((cell) => costs[cell] !== Number.POSITIVE_INFINITY);

it('holds a slice to its finger at every depth, or to its finger at its depth', () => {
  const extra = builder();
  expect(views.map(({ candidates }) => candidates.map(({ name }) => name))).toEqual([
    [1, 2, 3, 4, 5],
    [1, 2, 3, 4, 5],
    [1, 2, 3, 4, 5],
  ]);
  for (const at of [0, 1, 2]) extra.holdFingers(at);
  expect(finite(extra.own(0))).toEqual([0, 1, 2, 3, 4, 5, 6]);
  expect(finite(extra.own(1))).toEqual([7, 8, 9, 10, 11, 12, 13]);
  expect(finite(extra.own(2))).toEqual([14, 15, 16, 17, 18, 19, 20]);
  const one = builder();
  for (const at of [0, 1, 2]) one.hold(at);
  expect([0, 1, 2].map((at) => finite(one.own(at)))).toEqual([[0], [13], [17]]);
  expect(one.own(1)).toHaveLength(5 * DEPTHS);
});

it('the choice pays what is added at its own cells and steps, and nothing else', () => {
  const extra = builder();
  expect(extra.paid()).toBe(0);
  extra.own(1)[13] = 3;
  extra.own(1)[12] = 100;
  extra.own(1)[6] = 100;
  // From 1 to 2 on the way into the second slice, from 2 to 3 on the way into the third.
  extra.steps(1)[0 * 5 + 1] = 4;
  extra.steps(2)[1 * 5 + 2] = 0.5;
  extra.steps(2)[2 * 5 + 1] = 100;
  expect(extra.paid()).toBe(7.5);
  extra.hold(0);
  expect(extra.paid()).toBe(7.5);
});
