import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '../../packages/core/src/anatomy/hand.js';
import { alternatives } from '../../packages/core/src/fingering/alternatives.js';
import { viewLine } from '../../packages/core/src/fingering/view.js';
import type { Hand } from '../../packages/core/src/hands/line.js';
import { eachFingering, fingerings, Ledger } from './enumerate.js';
import { happenings, lineOf, type Texture } from './lines.js';

const ROUNDING = 1e-6;
const model = handModel();
const TEXTURES: readonly { readonly name: string; readonly texture: Texture; readonly most: number }[] = [
  { name: 'single notes', texture: { keys: 1, holds: 0, ambit: 9 }, most: 6 },
  { name: 'two voices, some digits given', texture: { keys: 2, holds: 2, ambit: 12, digits: true }, most: 5 },
  { name: 'chords', texture: { keys: 3, holds: 0, ambit: 14 }, most: 4 },
];

describe.each(TEXTURES)('alternatives: $name', ({ texture, most }) => {
  it('are the cheapest of all fingerings in order, distinct, and explained by their terms', () => {
    fc.assert(
      fc.property(
        happenings(texture, 1, most),
        fc.constantFrom<Hand>('right', 'left'),
        fc.integer({ min: 1, max: 12 }),
        fc.boolean(),
        (events, hand, count, keepDigits) => {
          const line = lineOf(hand, events);
          const views = viewLine(line, model, keepDigits);
          fc.pre(fingerings(views) <= 20_000);
          const costs: number[] = [];
          eachFingering(new Ledger(views, model), (cost) => costs.push(cost));
          costs.sort((a, b) => a - b);
          const found = alternatives(line, model, { keepDigits, count });
          expect(found.length).toBe(Math.min(count, costs.length));
          found.forEach(({ cost, slices }, nth) => {
            expect(Math.abs(cost - costs[nth]!)).toBeLessThan(ROUNDING);
            const sum = slices.flatMap(({ terms }) => Object.values(terms)).reduce((a, b) => a + b, 0);
            expect(Math.abs(sum - cost)).toBeLessThan(ROUNDING);
          });
          const digits = found.map(({ slices }) =>
            JSON.stringify(slices.map(({ struck, held }) => [struck, held])),
          );
          expect(new Set(digits).size).toBe(digits.length);
        },
      ),
      { numRuns: 80 },
    );
  });
});
