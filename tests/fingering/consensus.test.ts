import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import {
  cheapestConsensus,
  consensusOf,
  consistencyBias,
  inconsistency,
} from '#core/fingering/consistency/consensus.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Finger, Hand } from '#core/score/model.js';
import { type Happening, lineOf } from './lines.js';

/*
 * The fingers that like figures agree on, told by hand: a candidate is named by its digits from the thumb's side up, as
 * 135 for a triad.
 */

const model = handModel();

/** Keys struck at once, with a digit that the file gives, as in `64=3`. */
function view(hand: Hand, ...chords: readonly string[]): readonly SliceView[] {
  const events = chords.map(
    (chord): Happening => ({
      presses: chord.split('+').map((word) => {
        const [key, fixed] = word.split('=').map(Number);
        return {
          key: key!,
          holds: 0,
          pedalled: false,
          ...(fixed !== undefined && { fixed: fixed as Finger }),
        };
      }),
      seconds: 0.5,
      rest: 0,
      phraseStart: false,
      grace: false,
      onBeat: true,
    }),
  );
  return viewLine(lineOf(hand, events), model, true);
}

/** The choice of candidates that are named so. */
function pathOf(views: readonly SliceView[], ...names: readonly number[]): readonly number[] {
  return names.map((name, at) => {
    const choice = views[at]!.candidates.findIndex(({ fingers }) => fingers.join('') === String(name));
    if (choice < 0) throw new RangeError(`slice ${at} cannot have ${name}`);
    return choice;
  });
}

const figure = (slices: readonly number[], price: number) => ({ slices, before: 0, after: 0, price });
const all = (views: readonly SliceView[]) => figure([...views.keys()], 8);

describe.each(['right', 'left'] as const)('the consensus of like figures, %s hand', (hand) => {
  it('is what most of them have, and of equal numbers what comes first', () => {
    const views = view(hand, '64', '64', '64', '64');
    const agreed = (...names: number[]) => consensusOf(views, [all(views)], pathOf(views, ...names));
    expect(agreed(2, 3, 3, 3)).toEqual([3]);
    expect(agreed(2, 2, 2, 3)).toEqual([2]);
    expect(agreed(4, 2, 2, 4)).toEqual([4]);
    expect(agreed(1, 2, 4, 2)).toEqual([2]);
  });

  it('is a digit that the file gives, against three that it does not', () => {
    for (const given of [0, 1, 2, 3]) {
      const views = view(hand, ...[0, 1, 2, 3].map((at) => (at === given ? '64=4' : '64')));
      const names = [0, 1, 2, 3].map((at) => (at === given ? 4 : 2));
      expect(consensusOf(views, [all(views)], pathOf(views, ...names))).toEqual([4]);
    }
  });

  it('is what most given digits say, against any others', () => {
    const views = view(hand, '64=2', '64=3', '64', '64', '64', '64=3');
    expect(consensusOf(views, [all(views)], pathOf(views, 2, 3, 1, 1, 1, 3))).toEqual([3]);
  });

  it('is outvoted, as a digit of the file, by more than a hundred others', () => {
    const agreed = (others: number) => {
      const views = view(hand, ...new Array<string>(others).fill('64'), '64=4');
      return consensusOf(views, [all(views)], pathOf(views, ...new Array<number>(others).fill(2), 4));
    };
    expect([agreed(99), agreed(101)]).toEqual([[4], [2]]);
  });

  it('is one for chords of one shape on other keys', () => {
    // C, F and G major, and C major again.
    const views = view(hand, '60+64+67', '65+69+72', '67+71+74', '60+64+67');
    expect(consensusOf(views, [all(views)], pathOf(views, 125, 135, 124, 135))).toEqual([135]);
    // A finger given to one key of a chord speaks for the whole chord.
    const given = view(hand, '60+64+67', '65+69=2+72', '67+71+74', '60+64+67');
    expect(consensusOf(given, [all(given)], pathOf(given, 135, 125, 135, 135))).toEqual([125]);
  });

  it('is worked out for every figure by itself', () => {
    const views = view(hand, '64', '65', '64', '65', '64', '65=5');
    const figures = [figure([0, 2, 4], 8), figure([1, 3, 5], 16)];
    const path = pathOf(views, 1, 2, 3, 2, 3, 5);
    expect(consensusOf(views, figures, path)).toEqual([3, 5]);
    // One slice of the first deviates, two of the second.
    expect(inconsistency(views, figures, path)).toBe(8 + 2 * 16);
    expect(consensusOf(views, [], path)).toEqual([]);
  });

  it('adds its price to every candidate that deviates, of all figures that a slice is in', () => {
    const views = view(hand, '64', '64', '65');
    const figures = [figure([0, 1], 8), figure([0], 3)];
    const bias = consistencyBias(views, figures, [2, 4]);
    const [first, second, third] = views.map(({ candidates }, at) =>
      Object.fromEntries(candidates.map(({ name }, nth) => [name, bias[at]?.[nth]])),
    );
    expect(first).toEqual({ 1: 11, 2: 3, 3: 11, 4: 8, 5: 11 });
    expect(second).toEqual({ 1: 8, 2: 0, 3: 8, 4: 8, 5: 8 });
    expect(third).toEqual({ 1: undefined, 2: undefined, 3: undefined, 4: undefined, 5: undefined });
  });
});

describe('the cheapest consensus', () => {
  /** Costs of fingers 1 to 5 of a single key. */
  const costs = (views: readonly SliceView[], ...rows: readonly (readonly number[])[]) =>
    rows.map((row, at) => views[at]!.candidates.map(({ name }) => row[name - 1]!));

  it('is that of least cost together, where every slice may pay the price of deviating instead', () => {
    const views = view('right', '64', '64', '64');
    // 1 costs 0, 5, 5 and so 10 in all; 2 costs 3, 0, 4: 7; 3 costs 8 (the price), 8, 0: 16.
    const through = costs(views, [0, 3, 20, 9, 9], [5, 0, 30, 9, 9], [5, 4, 0, 9, 9]);
    expect(cheapestConsensus(views, [all(views)], through)).toEqual([2]);
    // At a price of 2, 1 costs 0, 2, 2; 2 costs 2, 0, 2; 3 costs 2, 2, 0: the first of equals.
    expect(cheapestConsensus(views, [figure([0, 1, 2], 2)], through)).toEqual([1]);
  });

  it('counts a slice with a digit of the file a hundred times', () => {
    const views = view('right', '64', '64', '64=3');
    // Only 3 is a candidate of the last slice; the others would rather have 1.
    const through = costs(views, [0, 9, 7, 9, 9], [0, 9, 7, 9, 9], [0, 0, 0, 0, 0]);
    expect(cheapestConsensus(views, [all(views)], through)).toEqual([3]);
  });
});

it('a figure is a chord in any octave, and chords of one shape on other keys in like surroundings', () => {
  // C major in two octaves, with F major between: only C major recurs.
  const octaves = figuresOf(view('right', '48+52+55', '65+69+72', '60+64+67'));
  expect(octaves).toEqual([figure([0, 2], 28)]);
  expect(figuresOf(view('right', '48+52+55', '65+69+72', '60=1+64+67'))).toEqual([figure([0, 2], 36)]);
  // Two keys are less of a chord.
  expect(figuresOf(view('right', '48+55', '65+69', '60+67'))).toEqual([figure([0, 2], 8)]);
  // Triads of one shape a fourth apart, a leap away from each other: alike with what stands beside them.
  const sequence = ['48+52+55', '60', '72', '53+57+60', '65', '77'];
  const alike = figuresOf(view('right', ...sequence, ...sequence)).map(({ slices }) => slices);
  expect(alike).toContainEqual([1, 4, 7, 10]);
  expect(alike.filter((slices) => slices.includes(3))).toContainEqual([3, 9]);
});
