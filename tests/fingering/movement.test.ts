import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { TERMS } from '#core/fingering/cost/terms/terms.js';
import { WEIGHTS } from '#core/fingering/cost/weights.js';
import { fingerLine } from '#core/fingering/finger.js';
import type { LineFingering } from '#core/fingering/result.js';
import type { Line } from '#core/hands/line.js';
import type { Criterion } from '#core/options/options.js';
import type { Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { happenings, lineOf, type Texture } from './lines.js';

const SPANS = fc.constantFrom('small', 'medium', 'large');
const HANDS = fc.constantFrom<Hand>('right', 'left');
const BOTH: readonly Criterion[] = ['usage', 'movement'];
/** Costs are told with six decimal places. */
const ROUNDING = 1e-4;

const TEXTURES: readonly { readonly name: string; readonly texture: Texture }[] = [
  { name: 'single notes', texture: { keys: 1, holds: 0, ambit: 14 } },
  { name: 'two voices', texture: { keys: 2, holds: 3, ambit: 12, digits: true } },
  { name: 'chords, some out of reach', texture: { keys: 4, holds: 1 } },
];

const finger = (line: Line, span: string, by: Criterion): LineFingering =>
  fingerLine(line, handModel(span), { by }).fingering;
const movementOf = ({ slices }: LineFingering): number => slices.reduce((sum, own) => sum + own.movement, 0);
const sumOf = (terms: Readonly<Record<string, number>>): number =>
  Object.values(terms).reduce((sum, own) => sum + own, 0);
/** mm equivalents paid for being unlike what recurs: no movement. */
const likenessOf = ({ slices }: LineFingering): number =>
  slices.reduce((sum, { terms }) => sum + (terms.likeness ?? 0), 0);

it('no weight of movement is below zero, and no habit has one', () => {
  let at = 0;
  for (const { name, blocks } of TERMS) {
    const size = blocks.reduce((sum, block) => sum + block.size, 0);
    const own = WEIGHTS.movement.subarray(at, at + size);
    expect([name, Math.min(...own) >= 0]).toEqual([name, true]);
    expect([name, Math.max(...own) > 0]).toEqual([name, !name.startsWith('habit')]);
    at += size;
  }
  expect(at).toBe(WEIGHTS.movement.length);
});

describe.each(TEXTURES)('$name', ({ texture }) => {
  it('movement is never negative, whatever the fingers are chosen by, and is all that `movement` costs but likeness', () => {
    fc.assert(
      fc.property(HANDS, SPANS, happenings(texture, 1, 14), (hand, span, events) => {
        for (const by of BOTH) {
          const { slices } = finger(lineOf(hand, events), span, by);
          for (const { movement, terms } of slices) {
            expect(movement).toBeGreaterThanOrEqual(0);
            if (by === 'usage') continue;
            expect(Math.min(0, ...Object.values(terms))).toBe(0);
            expect(Math.abs(sumOf(terms) - (terms.likeness ?? 0) - movement)).toBeLessThan(ROUNDING);
          }
        }
      }),
      rounds(25, 300),
    );
  });

  it('reads the same for mirrored hands', () => {
    fc.assert(
      fc.property(SPANS, happenings(texture, 1, 14), (span, events) => {
        for (const by of BOTH) {
          const [right, left] = (['right', 'left'] as const).map((hand) =>
            finger(lineOf(hand, events), span, by).slices.map(({ movement }) => movement),
          );
          expect(left).toEqual(right);
        }
      }),
      rounds(25, 300),
    );
  });

  it('the fingers of least movement move no more than the usual ones where nothing recurs', () => {
    let [cases, free, less] = [0, 0, 0];
    fc.assert(
      fc.property(HANDS, SPANS, happenings(texture, 1, 7), (hand, span, events) => {
        const line = lineOf(hand, events);
        const [usual, least] = BOTH.map((by) => finger(line, span, by)) as [LineFingering, LineFingering];
        // Likeness is no movement: what pays for it, or is held to it, may move more.
        const held = likenessOf(usual) + likenessOf(least) > 0;
        const saved = movementOf(usual) - movementOf(least);
        cases++;
        if (saved > ROUNDING) less++;
        if (held) return;
        free++;
        expect(saved).toBeGreaterThan(-ROUNDING);
      }),
      rounds(50, 750),
    );
    console.log(`${cases} lines, ${free} of them free of likeness, less movement in ${less}`);
    expect(free).toBeGreaterThan(cases / 2);
    expect(less).toBeGreaterThan(cases / 10);
  });
});
