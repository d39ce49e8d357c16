import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { runPlaces } from '#core/fingering/view/runs.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Line } from '#core/hands/line.js';
import { melody } from '../motion/lines.js';
import { happenings, lineOf } from './lines.js';

const model = handModel();

function viewsOf(line: Line): readonly SliceView[] {
  return viewLine(line, model, false);
}

function scale(...keys: readonly number[]): readonly SliceView[] {
  return viewsOf(melody('right', keys, '1'.repeat(keys.length), 0.25).line);
}

/** Walks away from a slice as long as the highest keys go the same way. */
function turn(views: readonly SliceView[], at: number, step: 1 | -1): number {
  let [nth, direction] = [at, 0];
  for (;;) {
    const [here, next] = [views[nth]!, views[nth + step]];
    const later = step > 0 ? next : here;
    if (!next || next.keys.length === 0 || here.keys.length === 0 || later!.cut || later!.free > 0.5)
      return nth;
    const onward = Math.sign(next.high - here.high);
    if (onward === 0 || (direction !== 0 && onward !== direction)) return nth;
    [nth, direction] = [nth + step, onward];
  }
}

it('places of all slices in their runs, against walking there from each', () => {
  let runs = 0;
  fc.assert(
    fc.property(happenings({ keys: 2, holds: 1, ambit: 30 }, 0, 14), fc.nat(20), (events, cut) => {
      const views = viewLine(lineOf('right', events), model, false, new Set([cut]));
      const places = runPlaces(views);
      expect(places.length).toBe(views.length);
      views.forEach(({ high }, at) => {
        const own = [high - views[turn(views, at, -1)]!.high, views[turn(views, at, 1)]!.high - high];
        [places[at]!.since, places[at]!.until].forEach((place, nth) => {
          expect(Math.abs(place)).toBeLessThanOrEqual(12);
          expect(Math.sign(place)).toBe(Math.sign(own[nth]!));
          expect((place - own[nth]!) % 12).toBeCloseTo(0);
          if (place !== 0) runs++;
        });
      });
    }),
    { numRuns: 500 },
  );
  expect(runs).toBeGreaterThan(1000);
});

it('a run that goes on for octaves recurs from one to the next', () => {
  const up = [48, 50, 52, 53, 55, 57, 59];
  const places = runPlaces(scale(...up, ...up.map((key) => key + 12), 72));
  expect(places.map(({ since }) => since)).toEqual([0, 2, 4, 5, 7, 9, 11, 12, 2, 4, 5, 7, 9, 11, 12]);
  expect(places.map(({ until }) => until)).toEqual([12, 10, 8, 7, 5, 3, 1, 12, 10, 8, 7, 5, 3, 1, 0]);
});

/** Slices that share a figure with another one, of at least so many slices. */
function alike(views: readonly SliceView[], least: number): number[] {
  const figures = figuresOf(views).filter(({ before, after }) => before + 1 + after >= least);
  return [...new Set(figures.flatMap(({ slices }) => slices))].sort((a, b) => a - b);
}

it('a stretch of a run is like another only at the same place of the run', () => {
  // C D E F G A B C: C D E, F G A and G A B, three white keys in tones each, are no figure of one run ...
  expect(alike(scale(60, 62, 64, 65, 67, 69, 71, 72), 3)).toEqual([]);
  // ... but the same run again is the same throughout, and figures that turn need no run.
  expect(alike(scale(60, 62, 64, 65, 60, 62, 64, 65), 3)).toEqual([1, 2, 5, 6]);
  expect(alike(scale(60, 64, 62, 65, 67, 71, 69, 72), 3)).toEqual([1, 2, 5, 6]);
});

it('a chord on the same keys is a figure whatever stands around it, a single key is not', () => {
  const chords = [[60, 64], [55], [60, 64], [59, 62], [55]];
  const line = melody(
    'right',
    chords.map(([key]) => key!),
    '11111',
    0.25,
  ).line;
  const slices = line.slices.map((slice, at) => ({
    ...slice,
    struck: chords[at]!.map((key) => ({ ...slice.struck[0]!, key })),
  }));
  expect(alike(viewsOf({ ...line, slices }), 1)).toEqual([0, 2]);
});
