import { describe, expect, it } from 'vitest';
import { travelCost } from '#core/anatomy/travel.js';
import { armTravel, moveInto, movesInto } from '#core/motion/depth/forearm.js';
import { melody } from './lines.js';

describe('a reversal of the forearm', () => {
  const rest = { free: 0, phraseStart: false, held: [] };
  const price = (seconds: number, isOfFigure: boolean) => moveInto({ seconds, ...rest }, isOfFigure).turn;

  it('is paid for as for the power that drives it, by the rate of the notes beyond four a second', () => {
    const prices = [0.5, 0.25, 0.125, 0.05].map((seconds) => price(seconds, false));
    // 6 mm, by 2, 4, 8 and 20 notes a second against 4: times the square of that less 1.
    expect(prices.map((price) => Number(price.toFixed(6)))).toEqual([0, 0, 36, 720]);
  });

  it('costs from one note a second on in a figure that turns to and fro', () => {
    for (const seconds of [2, 1, 0.5, 0.25, 0.1])
      expect(price(seconds, true)).toBeCloseTo(price(seconds / 4, false), 9);
    /** Of the moves from each key to the next. */
    const turns = (keys: readonly number[]) => {
      const { line } = melody('right', keys, '1'.repeat(keys.length), 0.25);
      return movesInto(line.slices)
        .slice(1)
        .map(({ turn }) => turn > 0);
    };
    // A trill and an Alberti bass: all of it.
    expect(turns([60, 62, 60, 62, 60, 62])).toEqual([true, true, true, true, true]);
    expect(turns([60, 67, 64, 67, 60, 67])).toEqual([true, true, true, true, true]);
    // A waltz bass: the note struck again belongs to it, and the bass may change.
    expect(turns([48, 60, 60, 43, 60, 60, 48, 60, 60])).not.toContain(false);
    expect(turns([48, 60, 60, 48, 60, 60, 48])).not.toContain(false);
    // One of two notes must come three times: not where a line turns about, repeats a note or goes on.
    expect(turns([60, 62, 64, 62, 60])).not.toContain(true);
    expect(turns([60, 60, 60, 60, 60, 60])).not.toContain(true);
    expect(turns([60, 62, 62, 60, 60, 62])).not.toContain(true);
    expect(turns([60, 62, 60, 64, 62, 65])).not.toContain(true);
    expect(turns([74, 72, 60, 62, 60, 62, 60, 64, 65])).toEqual([
      false,
      true,
      true,
      true,
      true,
      true,
      true,
      false,
    ]);
  });
});

describe('a move of the forearm', () => {
  const held = (count: number, pedalled = false) =>
    Array.from({ length: count }, (_, nth) => ({ key: 60 + nth, notes: [], seconds: 1, pedalled }));
  const weight = (seconds: number, own: ReturnType<typeof held>) =>
    moveInto({ seconds, free: 0, phraseStart: false, held: own }, false).weight;

  it('drags along every finger that holds a key, but none whose key the pedal holds', () => {
    expect(weight(0.4, held(1))).toBeCloseTo(2 * weight(0.4, []), 9);
    expect(weight(0.4, held(2))).toBeCloseTo(3 * weight(0.4, []), 9);
    expect(weight(0.4, held(2, true))).toBe(weight(0.4, []));
  });

  it('is dearer than for fingering where it is longer than 18 mm', () => {
    for (const mm of [0, 5, -18, 18]) expect(armTravel(mm, 0.04)).toBe(travelCost(mm, 0.04));
    for (const mm of [28, -28])
      expect(armTravel(mm, 0.04) - travelCost(mm, 0.04)).toBeCloseTo(10 * 10 * 0.04, 9);
  });

  it('is nowhere cheaper than in two', () => {
    const costs = Array.from({ length: 100 }, (_, mm) => armTravel(mm, 0.035));
    for (let mm = 2; mm < 100; mm++)
      expect(costs[mm]! - costs[mm - 1]!).toBeGreaterThanOrEqual(costs[mm - 1]! - costs[mm - 2]! - 1e-9);
  });
});
