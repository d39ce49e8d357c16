import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { travelCost } from '#core/anatomy/travel.js';
import { planDepth } from '#core/motion/depth/depth.js';
import { type Figure, figuresOf } from '#core/motion/depth/figure.js';
import { armTravel, moveInto, movesInto } from '#core/motion/depth/forearm.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { TipTable } from '#core/motion/tips.js';
import { lineOf, melody } from './lines.js';

/** Of the moves from each key to the next. */
const figures = (keys: readonly number[]) =>
  figuresOf(melody('right', keys, '1'.repeat(keys.length), 0.25).line.slices).slice(1);

describe('a reversal of the forearm', () => {
  const rest = { free: 0, phraseStart: false, held: [] };
  const price = (seconds: number, figure: Figure) => moveInto({ seconds, ...rest }, figure).turn;

  it('is paid for as for the power that drives it, by the rate of the notes beyond four a second', () => {
    const prices = [0.5, 0.25, 0.125, 0.05].map((seconds) => price(seconds, 'line'));
    // 6 mm, by 2, 4, 8 and 20 notes a second against 4: times the square of that less 1.
    expect(prices.map((price) => Number(price.toFixed(6)))).toEqual([0, 0, 36, 720]);
  });

  it('costs from one note a second on in a figure that turns to and fro', () => {
    for (const seconds of [2, 1, 0.5, 0.25, 0.1])
      expect(price(seconds, 'to-and-fro')).toBeCloseTo(price(seconds / 4, 'line'), 9);
    const turns = (keys: readonly number[]) => figures(keys).map((figure) => figure === 'to-and-fro');
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

  it('costs from two notes a second on within a broken chord, where its keys lie a third apart before and behind', () => {
    for (const seconds of [1, 0.5, 0.25, 0.1])
      expect(price(seconds, 'broken-chord')).toBeCloseTo(price(seconds / 2, 'line'), 9);
    const within = (keys: readonly number[]) => figures(keys).map((figure) => figure === 'broken-chord');
    expect(within([45, 52, 61, 69, 76])).toEqual([true, true, true, false]);
    // Not where it goes on by step, as a scale does, nor at a key struck again or a chord.
    expect(within([45, 52, 61, 59, 57])).toEqual([true, false, false, false]);
    expect(within([60, 62, 64, 65, 67])).not.toContain(true);
    expect(within([48, 52, 52, 55])).not.toContain(true);
    const { line } = lineOf('right', [
      { keys: [60], fingers: [1] },
      { keys: [64, 67], fingers: [2, 3] },
      { keys: [72], fingers: [5] },
    ]);
    expect(figuresOf(line.slices)).not.toContain('broken-chord');
    const [, move] = movesInto(melody('right', [45, 52, 61], '521', 0.25).line.slices);
    expect(move!.turn).toBeCloseTo(36, 9);
  });

  it('does not come out and go in again over a broken chord of three notes a second, as it may in slow notes', () => {
    // Up from a bass to the thumb on C sharp, back to the bass's octave and up again; and the mirror of it.
    for (const [hand, keys] of [
      ['left', [33, 40, 49, 47, 45, 52, 61]],
      ['right', [91, 84, 75, 77, 79, 72, 63]],
    ] as const) {
      const [slow, quick] = [1.5, 1 / 3].map((seconds) => {
        const { line, fingers } = melody(hand, keys, '5214521', seconds);
        const plan = planDepth(line, fingersInUse(line, fingers), new TipTable(handModel()));
        return plan.slice(1).reduce((out, depth, at) => out + Math.max(0, plan[at]! - depth), 0);
      });
      expect(slow).toBeGreaterThan(20);
      expect(quick).toBe(0);
    }
  });
});

describe('a move of the forearm', () => {
  const held = (count: number, pedalled = false) =>
    Array.from({ length: count }, (_, nth) => ({ key: 60 + nth, notes: [], seconds: 1, pedalled }));
  const weight = (seconds: number, own: ReturnType<typeof held>) =>
    moveInto({ seconds, free: 0, phraseStart: false, held: own }, 'line').weight;

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
