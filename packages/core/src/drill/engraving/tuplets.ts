import type { Bar } from '../rhythm/bars.js';

export interface TupletEnd {
  readonly start: boolean;
  readonly stop: boolean;
}

/** Where triplets begin and end: groups that together last as long as two of their written values, or a multiple. */
export function tupletsOf(bar: Bar): readonly TupletEnd[] {
  const ends = bar.map(() => ({ start: false, stop: false }));
  let from: number | undefined;
  let ticks = 0;
  let unit = 0;
  bar.forEach(({ value }, nth) => {
    if (!value.triplet) {
      from = undefined;
      return;
    }
    if (from === undefined) {
      from = nth;
      ticks = 0;
      unit = value.ticks;
      ends[nth]!.start = true;
    }
    ticks += value.ticks;
    unit = Math.min(unit, value.ticks);
    if (ticks % (3 * unit) === 0) {
      ends[nth]!.stop = true;
      from = undefined;
    }
  });
  return ends;
}
