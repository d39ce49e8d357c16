import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { returnFigures } from '#core/fingering/consistency/figures/return-figures.js';
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
    returnFigures(views, sequences, []).map(({ slices }) => slices);
  expect(back([])).toEqual([[0, 4]]);
  expect(back([[0, 4]])).toEqual([[0, 4]]);
  expect(back([[2, 4]])).toEqual([]);
  // The sequence moves to the key before.
  expect(back([[0, 3]])).toEqual([[0, 4]]);
});

const PLACE = [60, 64, 67, 64, 60, 64, 67, 64, 60, 64, 67, 64];

/** Returns of the same music twice, as first slice, second slice and price. */
const returns = (keys: readonly number[], recurring: readonly (readonly number[])[]) =>
  returnFigures(viewsOf(keys), [], recurring).map(({ slices: [at, back], price }) => [at, back, price]);

it('in music that recurs a key returns after one other note, too, and pays more for another finger', () => {
  const all = [...PLACE.keys()];
  expect(returns(PLACE, [all]).toSorted(([, , one], [, , other]) => other! - one!)).toEqual([
    [0, 4, 80],
    [1, 3, 80],
    [2, 6, 80],
    [3, 5, 80],
    [5, 7, 80],
    [9, 11, 80],
    // The barline lies before the ninth note.
    [4, 8, 8],
    [6, 10, 8],
  ]);
  // Elsewhere, and where only one of the two recurs, only keys that return after two others or more.
  const few = [
    [0, 4, 8],
    [2, 6, 8],
    [4, 8, 8],
    [6, 10, 8],
  ];
  expect(returns(PLACE, [])).toEqual(few);
  expect(returns(PLACE, [[0], [1]])).toEqual(few);
  expect(returns(PLACE, [[1, 2, 5]])).toEqual(few);
});

it('a return is settled where three notes before and after lie in the same place', () => {
  const recurring = (keys: readonly number[]) => [[...keys.keys()]];
  // The last note but three is out of reach of the first place: what returns before it has not settled.
  const leaving = [60, 64, 67, 60, 64, 67, 84];
  expect(returns(leaving, recurring(leaving))).toEqual([
    [0, 3, 8],
    [1, 4, 8],
  ]);
  const staying = [60, 64, 67, 60, 64, 67, 60, 64];
  expect(returns(staying, recurring(staying)).every(([, , price]) => price === 80)).toBe(true);
});

it('a key struck twice in a row changes fingers, so that nothing returns across it', () => {
  const keys = [60, 64, 67, 67, 64, 60];
  expect(returns(keys, [[...keys.keys()]])).toEqual([]);
});
