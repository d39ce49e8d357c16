import { expect, it } from 'vitest';
import { DEPTHS, DepthGrid } from '#core/fingering/cost/depth.js';
import { type Case, seen } from './counted.js';

/*
 * Depths are those of 3's natural tip, mm from the front edge of the keys; a black key begins at 50. Numbers of the term (from
 * memory), worked out by hand: the tip of the thumb lies 40 mm nearer to the player than that of 3, those of 2 and 4 6 and 5,
 * that of 5 22. A mm of stretching costs 0.4 up to 4 mm, then 1.2; of curling 0.35 up to 8, then 0.7; a mm short of a secure
 * hold 0.8.
 */

const own = (seconds: number, more: object = {}, keys: readonly number[] = [62]): Case => ({
  onsets: [60, { keys, seconds, ...more }],
  digits: '1 2',
});

const grid = (weight = 1, span = 'medium') =>
  new DepthGrid(seen({ onsets: [60], digits: '1', span }).model, weight);

it('knows seven depths', () => {
  expect(DEPTHS).toEqual([30, 42, 54, 66, 78, 90, 102]);
});

/** What it costs to come from one depth to another, mm. */
function move(from: number, to: number, at: Case, weight = 1): number {
  const view = seen(at).views[1]!;
  return grid(weight).kernel(view)[DEPTHS.indexOf(from) * 7 + DEPTHS.indexOf(to)]!;
}

it.each<[string, number, number, Case, number]>([
  // 0.035 a mm at 0.25 s; doubled at 15 mm: 0.035 * 12 * 1.8, 0.035 * 24 * 2.6.
  ['a step in', 54, 66, own(0.25), 0.756],
  ['a step out', 66, 54, own(0.25), 0.756],
  ['two steps', 42, 66, own(0.25), 2.184],
  ['all the way', 30, 102, own(0.25), 14.616],
  ['none', 54, 54, own(0.25), 0],
  // By the root of the pace, 0.1 a mm at most, 0.015 at least.
  ['four times as fast', 54, 66, own(0.0625), 1.512],
  ['at no time', 54, 66, own(0.001), 2.16],
  ['a second', 54, 66, own(1), 0.378],
  ['four seconds', 54, 66, own(4), 0.324],
  ['a minute', 54, 66, own(60), 0.324],
  // Three tenths where the hand is off the keys: at a phrase, or for 0.15 s.
  ['at a phrase', 54, 66, own(0.25, { phraseStart: true }), 0.2268],
  ['after a rest', 54, 66, own(0.25, { rest: 0.6 }), 0.2268],
  ['after a short rest', 54, 66, own(0.25, { rest: 0.59 }), 0.756],
])('a move of the forearm, %s: %s to %s', (_, from, to, at, mm) => {
  expect(move(from, to, at)).toBeCloseTo(mm, 6);
  expect(move(from, to, at, 3)).toBeCloseTo(3 * mm, 6);
});

/** What fingers on keys cost at a depth. */
function discomfort(keys: readonly number[], digits: string, depth: number, span = 'medium', weight = 1) {
  const { views, fingers } = seen({ onsets: [keys], digits, span });
  const row = new Float64Array(9);
  grid(weight, span).addDiscomfort(views[0]!, fingers[0]!, row, 2);
  expect([row[0], row[1]]).toEqual([0, 0]);
  return row[2 + DEPTHS.indexOf(depth)]!;
}

it.each<[string, readonly number[], string, number, number]>([
  ['3 on a white key in front', [60], '3', 30, 0],
  // The thumb's tip would be 10 mm before the key; at 5 mm it is on it, 15 mm stretched and 17 short of the 22 that are secure.
  ['the thumb on a white key, arm far out', [60], '1', 30, 28.4],
  // At 2 mm; on the key, stretched by 4 to 6 mm: 4 * 0.4 + 16 * 0.8.
  ['the thumb on a white key, arm out', [60], '1', 42, 14.4],
  // At 14 mm, stretched by 4: 1.6 + 4 * 0.8.
  ['the thumb on a white key, arm in a little', [60], '1', 54, 4.8],
  ['the thumb on a white key, arm in', [60], '1', 66, 0],
  // 5 lies at 8 mm; 4 more are stretched easily, 15 are secure: 1.6 + 3 * 0.8.
  ['5 on a white key, arm far out', [60], '5', 30, 4],
  ['5 on a white key', [60], '5', 42, 0],
  // A black key is held securely from 58 mm on, least from 53: 3 stretches 23 mm, 5 short, 3 of 0.01 beyond the front: 1.6 + 19 * 1.2 + 5 * 0.8 + 0.03.
  ['3 on a black key, arm far out', [61], '3', 30, 28.43],
  // 3 at 54: 4 mm stretched to 58, and 8 of 0.01 beyond the front.
  ['3 on a black key', [61], '3', 54, 1.68],
  ['3 on a black key, arm in', [61], '3', 66, 0.16],
  // The thumb at 38 stretches to 53: 1.6 + 11 * 1.2, 5 short, 3 of 0.01.
  ['the thumb on a black key', [61], '1', 78, 18.83],
  ['both', [60, 67], '15', 42, 14.4],
  ['black and white', [61, 68], '13', 78, 19.11],
])('the discomfort of %s', (_, keys, digits, depth, mm) => {
  expect(discomfort(keys, digits, depth)).toBeCloseTo(mm, 6);
  expect(discomfort(keys, digits, depth, 'medium', 2)).toBeCloseTo(2 * mm, 6);
  // In every octave.
  const lower = keys.map((key) => key - 24);
  expect(discomfort(lower, digits, depth)).toBe(discomfort(keys, digits, depth));
});

it('of a large hand is its own: its thumb lies nearer to the player', () => {
  // 228 mm for 206: 44.27 mm, and 54 mm of depth leave 9.73; stretched by 4, 8.27 short of 22.
  expect(discomfort([60], '1', 54, 'large')).toBeCloseTo(1.6 + 0.8 * (22 - (54 - (40 * 228) / 206) - 4), 6);
});
