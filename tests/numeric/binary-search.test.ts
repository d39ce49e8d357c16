import fc from 'fast-check';
import { expect, it } from 'vitest';
import { firstNotBefore } from '#core/numeric/binary-search.js';

it('finds what a walk from the first item on finds, in the whole list and in parts of it', () => {
  const isBefore = (item: number, place: number) => item < place;
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 20 }), { maxLength: 40 }),
      fc.integer({ min: -1, max: 21 }),
      fc.nat({ max: 40 }),
      fc.nat({ max: 40 }),
      (list, place, a, b) => {
        const items = list.toSorted((x, y) => x - y);
        const walked = (low: number, high: number) => {
          let at = low;
          while (at < high && items[at]! < place) at++;
          return at;
        };
        expect(firstNotBefore(items, place, isBefore)).toBe(walked(0, items.length));
        const [low, high] = [Math.min(a, b, items.length), Math.min(Math.max(a, b), items.length)];
        expect(firstNotBefore(items, place, isBefore, low, high)).toBe(walked(low, high));
      },
    ),
    { numRuns: 500 },
  );
});

it('tells the index of every item that it asks about', () => {
  const items = Uint8Array.from({ length: 100 }, (_, at) => at);
  expect(firstNotBefore(items, 42, (item, place, at) => item === at && at < place)).toBe(42);
});
