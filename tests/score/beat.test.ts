import { describe, expect, it } from 'vitest';
import { fraction } from '#core/numeric/fraction.js';
import { beatNumber, isOnBeat, quarterInMeasure } from '#core/score/beat.js';
import type { Measure } from '#core/score/model.js';

type Sizes = Pick<Measure, 'number' | 'start' | 'length' | 'nominal' | 'beat' | 'index' | 'implicit'>;

const measure = (sizes: Partial<Sizes>) =>
  ({
    index: 1,
    number: '1',
    implicit: false,
    start: fraction(8),
    length: fraction(4),
    nominal: fraction(4),
    beat: fraction(1),
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

  it('are told to people in quarter notes from 1', () => {
    expect(quarterInMeasure(measure({ beat: fraction(3, 2) }), fraction(19, 2))).toBe(2.5);
    expect(quarterInMeasure(measure({ index: 0, length: fraction(1) }), fraction(8))).toBe(1);
  });

  it('of what the file calls a pickup are told from the barline back', () => {
    const sizes = { length: fraction(3, 2), nominal: fraction(4) };
    for (const own of [measure({ ...sizes, implicit: true }), measure({ ...sizes, number: '0' })])
      expect([16, 17, 18].map((halves) => quarterInMeasure(own, fraction(halves, 2)))).toEqual([3.5, 4, 4.5]);
    const long = { length: fraction(5), nominal: fraction(4), number: '0' };
    expect(quarterInMeasure(measure(long), fraction(8))).toBe(1);
  });
});
