import { describe, expect, it } from 'vitest';
import { fraction } from '#core/numeric/fraction.js';
import { beatInMeasure, beatNumber, isOnBeat } from '#core/score/beat.js';
import type { Measure } from '#core/score/model.js';

type Sizes = Pick<
  Measure,
  'number' | 'start' | 'length' | 'nominal' | 'beat' | 'unit' | 'index' | 'implicit'
>;

const measure = (sizes: Partial<Sizes>) =>
  ({
    index: 1,
    number: '1',
    implicit: false,
    start: fraction(8),
    length: fraction(4),
    nominal: fraction(4),
    beat: fraction(1),
    unit: fraction(1),
    ...sizes,
  }) as Measure;

/** Beat of every onset, in halves of a quarter note from the measure's start; `!` where it lies on the beat. */
function beats(own: Measure, halves: number): string {
  return Array.from({ length: halves }, (_, nth) => {
    const onset = fraction(2 * 8 + nth, 2);
    return `${beatNumber(own, onset)}${isOnBeat(own, onset) ? '!' : ''}`;
  }).join(' ');
}

describe('beats', () => {
  it('are counted from the start of a measure, dotted in compound time', () => {
    expect(beats(measure({}), 8)).toBe('0! 0 1! 1 2! 2 3! 3');
    const compound = { beat: fraction(3, 2), nominal: fraction(3), length: fraction(3) };
    expect(beats(measure(compound), 6)).toBe('0! 0 0 1! 1 1');
  });

  it('of a pickup are counted from its end', () => {
    expect(beats(measure({ index: 0, length: fraction(3, 2) }), 3)).toBe('2 3! 3');
    expect(beats(measure({ implicit: true, length: fraction(3, 2) }), 3)).toBe('2 3! 3');
  });

  it('of any other short measure are counted from its start', () => {
    expect(beats(measure({ length: fraction(3, 2) }), 3)).toBe('0! 0 1!');
  });

  it('that rounded durations miss by a little are met', () => {
    const third = { num: 8 * 3_000_000 - 1, den: 3_000_000 };
    expect(beatNumber(measure({}), third)).toBe(0);
    expect(isOnBeat(measure({}), third)).toBe(true);
  });

  it('are told to people from 1 in the value that the time signature counts', () => {
    const told = (sizes: Partial<Sizes>) =>
      [8, 9, 9.5].map((quarters) => beatInMeasure(measure(sizes), fraction(2 * quarters, 2)));
    expect(told({})).toEqual([1, 2, 2.5]);
    expect(told({ beat: fraction(3, 2), unit: fraction(1, 2) })).toEqual([1, 3, 4]);
    expect(told({ beat: fraction(2), unit: fraction(2) })).toEqual([1, 1.5, 1.75]);
    expect(beatInMeasure(measure({ index: 0, length: fraction(1) }), fraction(8))).toBe(1);
  });

  it('of what the file calls a pickup are told from the barline back', () => {
    const sizes = { length: fraction(3, 2), nominal: fraction(4) };
    for (const own of [measure({ ...sizes, implicit: true }), measure({ ...sizes, number: '0' })])
      expect([16, 17, 18].map((halves) => beatInMeasure(own, fraction(halves, 2)))).toEqual([3.5, 4, 4.5]);
    const eighth = { length: fraction(1, 2), nominal: fraction(3), unit: fraction(1, 2), number: '0' };
    expect(beatInMeasure(measure(eighth), fraction(8))).toBe(6);
    const long = { length: fraction(5), nominal: fraction(4), number: '0' };
    expect(beatInMeasure(measure(long), fraction(8))).toBe(1);
  });
});
