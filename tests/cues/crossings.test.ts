import { describe, expect, it } from 'vitest';
import { crossingKey, crossingRuns, handCues } from '#core/cues/crossing-cues.js';
import type { Crossing } from '#core/motion/plan.js';
import type { Density } from '#core/options/options.js';
import { type Made, made } from './made-plans.js';

// Plans written by hand: runs whose crossings lie at most five slices apart, 0.6 seconds to read a text, 16 mm equivalents
// for `demanding`, two measures in which what comes back is not told again.

/** A line of slices on distinct keys with crossings at these places. */
function line(
  length: number,
  crossings: Readonly<Record<number, Partial<Crossing>>>,
  more: Readonly<Record<number, Made>> = {},
  seconds = 0.25,
) {
  return made(
    Array.from({ length }, (_, at) => ({
      key: 40 + at,
      seconds,
      ...more[at],
      ...(crossings[at] && { crossing: crossings[at] }),
    })),
  );
}

const told = (given: ReturnType<typeof made>, density: Density = 'essential') =>
  crossingRuns(given.line, given.plan, density).flat();

describe('thumb crossings in print', () => {
  it('by kind: the thumb passes, a finger goes over, a hand over or under the other', () => {
    const kinds = ['thumb-passing', 'finger-over', 'hand-over', 'hand-under'] as const;
    const { plan } = made(kinds.map((kind) => ({ crossing: { kind } })));
    expect(plan.slices.map(({ crossing }) => crossingKey(crossing!))).toEqual([
      'thumb-passes',
      'over-thumb',
      'hand-over',
      'hand-under',
    ]);
  });

  it('are told each where they come no quicker than 0.6 seconds on average, else the first of the run', () => {
    // Two slices apart: 0.3 seconds a slice is 0.6 a crossing.
    expect(told(line(8, { 1: {}, 3: {}, 5: {} }, {}, 0.3))).toEqual([1, 3, 5]);
    expect(told(line(8, { 1: {}, 3: {}, 5: {} }, {}, 0.29))).toEqual([1]);
    expect(told(line(8, { 1: {}, 3: {}, 5: {} }, {}, 0.29), 'every')).toEqual([1, 3, 5]);
    // The time before the first and after the last counts for nothing, that into the last does.
    expect(
      told(line(5, { 1: {}, 2: {} }, { 1: { seconds: 9 }, 2: { seconds: 0.1 }, 3: { seconds: 9 } })),
    ).toEqual([1]);
    expect(told(line(5, { 1: {}, 2: {} }, { 2: { seconds: 0.6 } }, 0.01))).toEqual([1, 2]);
    // A run of one is read whatever its pace.
    expect(told(line(3, { 1: {} }, {}, 0.01))).toEqual([1]);
  });

  it('are not told where one only takes the one before it back', () => {
    const over: Made = { key: 61, finger: 2, crossing: { kind: 'finger-over' } };
    const back = (more: Made = {}): Made => ({
      key: 64,
      finger: 1,
      crossing: { kind: 'thumb-passing' },
      ...more,
    });
    const of = (...slices: readonly Made[]): number[] =>
      told(made(slices.map((one) => ({ seconds: 0.6, ...one }))), 'every');
    expect(of({ key: 64, finger: 1 }, over, back(), { key: 69, finger: 3 })).toEqual([1]);
    // To and fro, only the first; where a run begins so, each.
    expect(of({ key: 64, finger: 1 }, over, back(), over, back())).toEqual([1]);
    expect(of({ key: 64, finger: 1 }, over, back(), { key: 69, finger: 3 }, back())).toEqual([1, 2, 4]);
    // Another key or finger, or a new start in between, is no way back.
    expect(of({ key: 64, finger: 1 }, over, back({ key: 62 }))).toEqual([1, 2]);
    expect(of({ key: 64, finger: 3 }, over, back())).toEqual([1, 2]);
    expect(of({ key: 64, finger: 1 }, over, back({ free: 1 }))).toEqual([1, 2]);
    expect(of({ key: 64, finger: 1 }, { ...over, free: 1 }, back())).toEqual([1, 2]);
    // Behind another finger that stands where it stood, but passed nothing, it is a crossing by itself.
    expect(of({ key: 64, finger: 1 }, { key: 61, finger: 2 }, back())).toEqual([2]);
  });

  it('are told from one key to one key alone, with others held or not', () => {
    const { line: single, plan } = line(8, { 2: {}, 6: {} });
    const withPair = (at: number, name: 'struck' | 'held') => {
      const slices = single.slices.map((slice, nth) =>
        nth === at ? { ...slice, [name]: [...slice[name], { ...slice.struck[0]!, key: 80 }] } : slice,
      );
      return told({ line: { ...single, slices } as typeof single, plan });
    };
    expect(withPair(0, 'struck')).toEqual([2, 6]);
    expect(withPair(1, 'struck')).toEqual([6]);
    expect(withPair(2, 'struck')).toEqual([6]);
    expect(withPair(2, 'held')).toEqual([2, 6]);
  });

  it('are told each at any pace where all lie three notes apart or more, as in scales and arpeggios', () => {
    expect(told(line(12, { 1: {}, 4: {}, 8: {}, 11: {} }, {}, 0.05))).toEqual([1, 4, 8, 11]);
    expect(told(line(12, { 1: {}, 4: {}, 6: {}, 10: {} }, {}, 0.05))).toEqual([1]);
  });

  it('begin a run of their own beyond five slices, after a rest, and in another kind or direction', () => {
    // Two apart, so that of a run the first alone is told.
    const quick = (
      second: number,
      crossing: Partial<Crossing> = {},
      more: Readonly<Record<number, Made>> = {},
    ) => told(line(second + 1, { 1: {}, 3: {}, [second]: crossing }, more, 0.05));
    expect(quick(8)).toEqual([1]);
    expect(quick(9)).toEqual([1, 9]);
    expect(quick(5, { kind: 'finger-over' })).toEqual([1, 5]);
    expect(quick(5, { direction: 'down' })).toEqual([1, 5]);
    expect(quick(5, {}, { 4: { free: 0.15 } })).toEqual([1, 5]);
    expect(quick(5, {}, { 4: { free: 0.14 } })).toEqual([1]);
  });

  it('are demanding from 16 mm equivalents on, for the whole run of one that is', () => {
    const hard = (...all: readonly number[]) =>
      told(
        line(9, Object.fromEntries(all.map((difficulty, nth) => [1 + 3 * nth, { difficulty }]))),
        'demanding',
      );
    expect(hard(16)).toEqual([1]);
    expect(hard(15.9)).toEqual([]);
    expect(hard(8, 16)).toEqual([1, 4]);
    expect(hard(8, 8)).toEqual([]);
  });

  it('are told again where the same run comes back, unless within two measures', () => {
    const back = (measure: number, key = 60, density: Density = 'essential') => {
      const slices = [{}, { key: 60, crossing: {} }, { free: 1 }, {}, { key, crossing: {} }];
      return told(made(slices.map((slice, at) => ({ ...slice, measure: at < 2 ? 3 : measure }))), density);
    };
    expect(back(5)).toEqual([1]);
    expect(back(6)).toEqual([1, 4]);
    expect(back(5, 62)).toEqual([1, 4]);
    expect(back(5, 60, 'every')).toEqual([1, 4]);
  });
});

describe('hand crossings in print', () => {
  const { line: given, plan } = made(
    [0, 0, 2, 5, 5].map((measure) => ({ measure, crossing: { kind: 'hand-over' } })),
  );
  const over = plan.slices.map(({ crossing }) => crossing);
  const under = made([{ crossing: { kind: 'hand-under' } }]).plan.slices[0]!.crossing;

  it('are told each by every, and the first of those that follow within two measures by the others', () => {
    const key = 'hand-over';
    expect(handCues(given, over, 'every')).toEqual([key, key, key, key, key]);
    for (const density of ['essential', 'demanding'] as const) {
      expect(handCues(given, over, density)).toEqual([key, undefined, undefined, key, undefined]);
    }
    expect(handCues(given, [undefined, over[1], under], 'essential')).toEqual([undefined, key, 'hand-under']);
  });
});
