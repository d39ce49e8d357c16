import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { figuresOf } from '#core/fingering/consistency/figures.js';
import { returnFigures } from '#core/fingering/consistency/return-figures.js';
import { viewLine } from '#core/fingering/view/view.js';
import { lineOf, single } from './lines.js';

const viewsOf = (keys: readonly number[]) => viewLine(lineOf('right', keys.map(single)), handModel(), true);

/** The figures of three slices of these keys, as their middle slices. */
const threes = (keys: readonly number[]) =>
  figuresOf(viewsOf(keys))
    .filter(({ before, after }) => before === 1 && after === 1)
    .map(({ slices }) => slices);

it('triads on C and F are one figure, those on C and D, with other thirds, are not', () => {
  expect(threes([60, 64, 67, 65, 69, 72])).toEqual([[1, 4]]);
  expect(threes([60, 64, 67, 62, 65, 69])).toEqual([]);
});

it('a key that returns to a hand that could have stayed is a figure, but not where a sequence has moved there', () => {
  const views = viewsOf([60, 62, 64, 65, 60]);
  const back = (sequences: readonly (readonly number[])[]) =>
    returnFigures(views, sequences).map(({ slices }) => slices);
  expect(back([])).toEqual([[0, 4]]);
  expect(back([[0, 4]])).toEqual([[0, 4]]);
  expect(back([[2, 4]])).toEqual([]);
  // The sequence moves to the key before.
  expect(back([[0, 3]])).toEqual([[0, 4]]);
});
