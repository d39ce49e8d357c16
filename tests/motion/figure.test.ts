import { describe, expect, it } from 'vitest';
import { moveInto, movesInto } from '#core/motion/depth/forearm.js';
import { melody } from './lines.js';

describe('a reversal of the forearm', () => {
  it('is paid for as for the power that drives it, by the rate of the notes beyond four a second', () => {
    const prices = [0.5, 0.25, 0.125, 0.05].map(
      (seconds) => moveInto({ seconds, free: 0, phraseStart: false }, false).turn,
    );
    // 6 mm, by 2, 4, 8 and 20 notes a second against 4: times the square of that less 1.
    expect(prices.map((price) => Number(price.toFixed(6)))).toEqual([0, 0, 36, 720]);
  });

  it('costs from two notes a second on in a figure that turns to and fro', () => {
    const rest = { free: 0, phraseStart: false };
    const price = (seconds: number, isOfFigure: boolean) => moveInto({ seconds, ...rest }, isOfFigure).turn;
    for (const seconds of [1, 0.5, 0.25, 0.1]) expect(price(seconds, true)).toBe(price(seconds / 2, false));
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
    // One of two notes must come three times: not where a line turns about, repeats a note or goes on.
    expect(turns([60, 62, 64, 62, 60])).not.toContain(true);
    expect(turns([60, 60, 60, 60, 60, 60])).not.toContain(true);
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
