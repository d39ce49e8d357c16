import { describe, expect, it } from 'vitest';
import { type Cue, type CueContext, planCues } from '#core/cues/cues.js';
import { depthMoves } from '#core/cues/depth-cues.js';
import { reasonText } from '#core/cues/reasons.js';
import type { Density } from '#core/options/options.js';
import { arms, depths, type Made, made } from './made-plans.js';

// Plans written by hand, two fifths of a second a note: `every` leaves the reader 5 mm, `essential` 20, `demanding` 26.

const moves = (slices: readonly Made[], density: Density = 'every') => {
  const { line, plan } = made(slices);
  return depthMoves(line, plan, density).map(
    ({ slice, key, end, travel }) => [slice, key, end, travel] as const,
  );
};
const said = (slices: readonly Made[], context: Partial<CueContext> = {}): readonly Cue[] => {
  const { line, plan } = made(slices);
  return planCues(line, plan, { language: 'en', ...context });
};

describe('moves in depth', () => {
  it.each([
    [6, 'lean'],
    [8, 'lean'],
    [9, 'in'],
    [29, 'in'],
    [30, 'far-in'],
    [-6, 'out'],
    [-29, 'out'],
    [-30, 'far-out'],
  ] as const)('of %i mm: %s', (mm, key) => {
    expect(moves(depths([0, mm, mm]))).toEqual([[1, key, 1, Math.abs(mm)]]);
  });

  it('are told from where the reader would be further off than a density allows', () => {
    const first = (mm: number, density: Density) => moves(depths([0, mm]), density).length;
    expect([5, 6].map((mm) => first(mm, 'every'))).toEqual([0, 1]);
    expect([20, 21].map((mm) => first(mm, 'essential'))).toEqual([0, 1]);
    expect([26, 27].map((mm) => first(mm, 'demanding'))).toEqual([0, 1]);
  });

  it('take in all notes that go on the same way, and end where one does not', () => {
    expect(moves(depths([0, 10, 20, 30, 30]))).toEqual([[1, 'far-in', 3, 30]]);
    expect(moves(depths([0, 20, 20, 40]))).toEqual([
      [1, 'in', 1, 20],
      [3, 'further-in', 3, 20],
    ]);
    expect(moves(depths([40, 20, 20, 0]))).toEqual([
      [1, 'out', 1, 20],
      [3, 'further-out', 3, 20],
    ]);
    expect(moves(depths([0, 20, 0]))).toEqual([
      [1, 'in', 1, 20],
      [2, 'out', 2, 20],
    ]);
  });

  it('stand where they begin, not before', () => {
    expect(moves(depths([0, 0, 0, 20, 20]))).toEqual([[3, 'in', 3, 20]]);
    expect(moves(depths([20, 20, 20, 0]))).toEqual([[3, 'out', 3, 20]]);
  });

  it('stand where the plan goes that way, or on the note before, never where it goes back', () => {
    // Nearest in sum would be the note at which the plan has come back to 15.
    expect(moves(depths([0, 20, 15, 15, 15, 15]))).toEqual([[1, 'in', 1, 20]]);
    // Who was 5 mm off goes on from there one note early, and with the note that asks for more.
    expect(moves(depths([0, 5, 5, 5, 25, 25]))).toEqual([[3, 'in', 4, 25]]);
    expect(moves(depths([25, 20, 20, 20, 0, 0]))).toEqual([[3, 'out', 4, 25]]);
  });

  it('begin four notes and a second and a half at most before the note that needs them', () => {
    const slow = (seconds: number) =>
      moves(
        depths([0, 4, 8, 12, 16, 20, 24, 28]).map((slice) => ({ ...slice, seconds })),
        'essential',
      ).map(([slice, , end]) => [slice, end]);
    // A reader who stays is more than 20 mm off at the seventh.
    expect(slow(0.4)).toEqual([[3, 7]]);
    expect(slow(0.7)).toEqual([[4, 7]]);
    expect(slow(1.5)).toEqual([[5, 7]]);
    expect(slow(1.6)).toEqual([[6, 7]]);
    // Quick notes have a wider tolerance: 40 mm, which is never left.
    expect(slow(0.1)).toEqual([]);
  });

  it('begin where they are felt: not where the plan goes less than 4 mm, and as little at the next note', () => {
    expect(moves(depths([0, 1, 2, 32]), 'essential')).toEqual([[2, 'far-in', 3, 32]]);
    expect(moves(depths([0, 1, 5, 32]), 'essential')).toEqual([[1, 'far-in', 3, 32]]);
    expect(moves(depths([40, 37, 34, 8]), 'essential')).toEqual([[2, 'far-out', 3, 32]]);
    // A reader 3 mm off is not told to go 3 mm, but sets out one note early.
    expect(moves(depths([0, 3, 3, 3, 24]), 'essential')).toEqual([[3, 'in', 4, 24]]);
  });

  it('are over after a rest: the hand comes back of itself', () => {
    const [start, inwards, stay, back] = depths([0, 20, 20, 5]);
    expect(moves([start!, inwards!, stay!, { ...back, free: 0.2 }])).toEqual([[1, 'in', 1, 20]]);
  });

  it('are further after a rest where the hand has stayed, unless eight measures lie between', () => {
    const second = (after: number, more: Made = {}) => {
      const all = depths([0, 20, after, after + 20]);
      return moves([all[0]!, all[1]!, { ...all[2]!, free: 0.2, ...more }, { ...all[3]!, ...more }])[1];
    };
    expect(second(20)).toEqual([3, 'further-in', 3, 20]);
    expect(second(30)).toEqual([3, 'further-in', 3, 20]);
    expect(second(15)).toEqual([3, 'further-in', 3, 20]);
    expect(second(14)).toEqual([3, 'in', 3, 20]);
    expect(second(20, { measure: 8 })).toEqual([3, 'further-in', 3, 20]);
    expect(second(20, { measure: 9 })).toEqual([3, 'in', 3, 20]);
    const stay = depths([0, 20, 20, 40]);
    expect(moves(stay.map((slice, at) => (at < 2 ? slice : { ...slice, measure: 9 })))[1]).toEqual([
      3,
      'further-in',
      3,
      20,
    ]);
  });

  it('are none in a line without notes', () => {
    expect(moves([])).toEqual([]);
    expect(said([])).toEqual([]);
  });
});

describe('one text', () => {
  const full = (measures: readonly number[]) =>
    said(
      measures.flatMap((measure, at) =>
        depths([0, 24]).map((slice, nth) => ({ ...slice, measure, ...(nth === 0 && at > 0 && { free: 1 }) })),
      ),
    ).map(({ text }) => text);

  it('is fuller the first time, after 24 measures, and after a gap of more than eight', () => {
    expect(full([0, 1])).toEqual(['forearm in', 'in']);
    expect(full([0, 8])).toEqual(['forearm in', 'in']);
    expect(full([0, 9])).toEqual(['forearm in', 'forearm in']);
    expect(full([0, 8, 16, 23])).toEqual(['forearm in', 'in', 'in', 'in']);
    expect(full([0, 8, 16, 24])).toEqual(['forearm in', 'in', 'in', 'forearm in']);
  });

  it('is fuller by direction: out is not told by in', () => {
    expect(said(depths([0, 24, 0, 24])).map(({ text }) => text)).toEqual(['forearm in', 'forearm out', 'in']);
    expect(said(depths([0, 34, 0, 24])).map(({ text }) => text)).toEqual([
      'forearm far in',
      'forearm far out',
      'in',
    ]);
    expect(said(depths([34, 0, 34, 10])).map(({ text }) => text)).toEqual([
      'forearm far out',
      'forearm far in',
      'out',
    ]);
  });

  it('leaves out the wrist and the turn beside a crossing, and keeps at most two cues in the order of print', () => {
    const crossing: Made = { crossing: {} };
    const layers = ['depth', 'crossing', 'carry', 'contour', 'roll'] as const;
    const rise: readonly Made[] = [{}, { contour: 1, ...crossing }, { contour: 2 }, {}];
    expect(said(rise, { layers }).map(({ slice, keys }) => [slice, ...keys])).toEqual([[1, 'thumb-passes']]);
    const turn: readonly Made[] = [{}, { roll: 0.8, ...crossing }, { roll: 0.8 }];
    expect(said(turn, { layers }).map(({ keys }) => keys)).toEqual([['thumb-passes']]);
    expect(said([{}, { roll: 0.8 }], { layers }).map(({ keys }) => keys)).toEqual([['turn-fifth']]);
    // Depth before the roll, although both are more than two; print has the crossing first.
    const all = depths([0, 24, 24]).map((slice, at) => ({
      ...slice,
      arm: at < 2 ? 0 : 50,
      armChange: at < 2 ? 0 : 50,
      ...(at === 1 && crossing),
    }));
    expect(said(all, { layers }).map(({ keys }) => keys)).toEqual([['thumb-passes', 'in']]);
    const three = depths([0, 24, 24]).map((slice, at) => ({
      ...slice,
      roll: at > 0 ? 0.8 : 0,
      arm: at < 2 ? 0 : 50,
      armChange: at < 2 ? 0 : 50,
    }));
    expect(said(three, { layers }).map(({ keys }) => keys)).toEqual([['in', 'turn-fifth']]);
  });

  it('of carry, contour and roll comes back with the same move by every alone', () => {
    const again = (density: Density, seconds = 0.6) => {
      const there = arms([0, 50, 0, 50, 0]).map((slice) => ({ ...slice, seconds }));
      return said(there, { layers: ['carry'], density }).map(({ slice }) => slice);
    };
    expect(again('every')).toEqual([0, 1, 2, 3]);
    expect(again('essential')).toEqual([0, 1, 2]);
    expect(again('demanding')).toEqual([0, 1, 2]);
    // What comes quicker than it can be read is told there and back.
    expect(again('every', 0.59)).toEqual([0, 1, 2, 3]);
    expect(again('essential', 0.59)).toEqual([0, 1]);
  });

  it('tells where a move of several notes ends, and itself where it is of one', () => {
    expect(said(depths([0, 10, 20, 30])).map(({ slice, end }) => [slice, end])).toEqual([[1, 3]]);
    expect(said(arms([0, 50, 50]), { layers: ['carry'] }).map(({ slice, end }) => [slice, end])).toEqual([
      [0, 0],
    ]);
  });
});

describe('reasons in words', () => {
  it.each([
    ['en', 'in', '3 moves in: the arm moves on evenly'],
    ['en', 'out', '3 moves out: the arm moves on evenly'],
  ] as const)('%s, evenly %s', (language, direction, text) => {
    expect(reasonText({ direction, finger: 3 }, language)).toBe(text);
  });

  it('name the thumb and the arm', () => {
    expect(reasonText({ direction: 'in', finger: 1 }, 'en')).toBe(
      'the thumb moves in: the arm moves on evenly',
    );
    expect(reasonText({ direction: 'out' }, 'en')).toBe('the arm moves out: the arm moves on evenly');
    expect(
      reasonText({ direction: 'out', finger: 2, coming: 1, cause: 'between-black-keys', key: 62 }, 'en'),
    ).toBe('2 moves out, ready for the thumb: D lies between two black keys');
    expect(
      reasonText(
        { direction: 'in', finger: 4, cause: 'black-key', key: 70, spelling: { step: 6, alter: -1 } },
        'en',
      ),
    ).toBe('4 goes in: B flat is a black key');
  });
});
