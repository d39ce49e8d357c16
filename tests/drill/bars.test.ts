import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beamsOf } from '#core/drill/engraving/beams.js';
import { tupletsOf } from '#core/drill/engraving/tuplets.js';
import { barsOf } from '#core/drill/rhythm/bars.js';
import { groupEnd, parseMetre } from '#core/drill/rhythm/metre.js';
import { flagsOf, noteValue } from '#core/drill/rhythm/values.js';
import type { Step } from '#core/drill/sheet.js';
import { rounds } from '../rounds.js';

const METRES = ['4/4', '3/4', '2/4', '2/2', '6/8', '9/8', '12/8', '5/8', '7/8', '5/4', '3/8'];
const RHYTHMS = [
  ['quarter'],
  ['eighth'],
  ['sixteenth'],
  ['32nd'],
  ['dotted-eighth', 'sixteenth'],
  ['sixteenth', 'dotted-eighth'],
  ['eighth', 'sixteenth', 'sixteenth'],
  ['quarter', 'eighth'],
  ['half'],
  ['dotted-quarter', 'eighth'],
];
const TRIPLETS = [
  ['triplet-eighth'],
  ['triplet-quarter'],
  ['triplet-sixteenth'],
  ['triplet-quarter', 'triplet-eighth'],
];

const step = (letter: number): Step => ({ pitches: [{ diatonic: 28 + letter, alter: 0 }] });
const stepsOf = (count: number): Step[] => Array.from({ length: count }, (_, nth) => step(nth % 7));

const laid = fc.record({
  metre: fc.constantFrom(...METRES).map(parseMetre),
  values: fc.constantFrom(...RHYTHMS).map((names) => names.map(noteValue)),
  count: fc.integer({ min: 1, max: 70 }),
});
const triplets = fc.record({
  metre: fc.constantFrom('4/4', '3/4', '2/4').map(parseMetre),
  values: fc.constantFrom(...TRIPLETS).map((names) => names.map(noteValue)),
  count: fc.integer({ min: 1, max: 70 }),
});

describe('measures', () => {
  it('are full, every one of them, and hold every step once with its own length', () => {
    fc.assert(
      fc.property(fc.oneof(laid, triplets), ({ metre, values, count }) => {
        const steps = stepsOf(count);
        const bars = barsOf(steps, { metre, values });
        for (const bar of bars) {
          let at = 0;
          for (const written of bar) {
            expect(written.at).toBe(at);
            at += written.value.ticks;
          }
          expect(at).toBe(metre.measure);
        }
        const all = bars.flat();
        const struck = all.filter((own) => own.step && !own.tied.from);
        expect(struck.map((own) => own.step)).toEqual(steps);
        const lengths: number[] = [];
        for (const own of all) {
          if (!own.step) continue;
          if (own.tied.from) lengths[lengths.length - 1]! += own.value.ticks;
          else lengths.push(own.value.ticks);
        }
        lengths.slice(0, -1).forEach((ticks, nth) => {
          expect(ticks).toBe(values[nth % values.length]!.ticks);
        });
        expect(lengths.at(-1)).toBeGreaterThanOrEqual(values[(count - 1) % values.length]!.ticks);
        all.forEach((own, nth) => {
          if (own.tied.to) expect(all[nth + 1]).toMatchObject({ step: own.step, tied: { from: true } });
        });
      }),
      rounds(300),
    );
  });

  it('end with a rest or a fermata, and have no fermata elsewhere', () => {
    fc.assert(
      fc.property(laid, ({ metre, values, count }) => {
        const all = barsOf(stepsOf(count), { metre, values }).flat();
        const fermatas = all.filter(({ fermata }) => fermata);
        expect(fermatas.length).toBe(all.at(-1)!.step ? 1 : 0);
        if (fermatas.length > 0) expect(all.at(-1)).toBe(fermatas[0]);
      }),
      rounds(200),
    );
  });

  it('have beams that begin and end within a group of beats, one beam for every flag', () => {
    fc.assert(
      fc.property(laid, ({ metre, values, count }) => {
        for (const bar of barsOf(stepsOf(count), { metre, values })) {
          const beams = beamsOf(bar, metre);
          let open = 0;
          beams.forEach((own, nth) => {
            const { at, value } = bar[nth]!;
            if (own.length > 0) expect(own.length).toBe(flagsOf(value));
            if (own[0] === 'begin') open = nth;
            if (own[0] === 'end' && metre.unit !== 4) {
              expect(groupEnd(metre, bar[open]!.at)).toBe(groupEnd(metre, at));
            }
            const before = beams[nth - 1]?.[0];
            if (own[0] === 'continue' || own[0] === 'end') expect(['begin', 'continue']).toContain(before);
            else expect(['begin', 'continue']).not.toContain(before);
          });
          expect(['begin', 'continue']).not.toContain(beams.at(-1)?.[0]);
        }
      }),
      rounds(200),
    );
  });

  it('close every triplet that they open, on three times its value', () => {
    fc.assert(
      fc.property(triplets, ({ metre, values, count }) => {
        for (const bar of barsOf(stepsOf(count), { metre, values })) {
          let open = -1;
          tupletsOf(bar).forEach(({ start, stop }, nth) => {
            if (start) {
              expect(open).toBe(-1);
              open = nth;
            }
            expect(bar[nth]!.value.triplet).toBe(open >= 0);
            if (stop) {
              const ticks = bar.slice(open, nth + 1).reduce((sum, own) => sum + own.value.ticks, 0);
              expect(ticks % 12).toBe(0);
              open = -1;
            }
          });
          expect(open).toBe(-1);
        }
      }),
      rounds(200),
    );
  });

  it('put accents on the first of so many notes', () => {
    const rhythm = { metre: parseMetre('4/4'), values: [noteValue('eighth')], accents: 3 };
    const accents = barsOf(stepsOf(10), rhythm)
      .flat()
      .flatMap(({ accent }, nth) => (accent ? [nth] : []));
    expect(accents).toEqual([0, 3, 6, 9]);
  });
});

describe('metres', () => {
  it.each([
    ['4/4', 48, [0, 48, 96, 144, 192]],
    ['6/8', 72, [0, 72, 144]],
    ['7/8', 24, [0, 48, 96, 168]],
    ['5/8', 24, [0, 48, 120]],
    ['2/2', 96, [0, 96, 192]],
    ['3/8', 72, [0, 72]],
  ])('%s', (text, beat, groups) => {
    expect(parseMetre(text)).toMatchObject({ beat, groups });
  });
});
