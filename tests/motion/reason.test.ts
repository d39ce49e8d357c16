import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { reasonText } from '#core/cues/reasons.js';
import { LANGUAGES } from '#core/cues/wording.js';
import { planMotion } from '#core/motion/motion.js';
import type { Language } from '#core/options/options.js';
import { steps } from './arbitrary.js';
import { type Given, lineOf, melody } from './lines.js';

const hand = handModel();
const plan = ({ line, fingers }: Given) => planMotion(line, fingers, hand);

describe('reasons', () => {
  const said = (given: Given, language: Language = 'en') =>
    plan(given).slices.map(({ reason }) => (reason ? reasonText(reason, language) : ''));

  it('name the finger, the move and what the key is', () => {
    const texts = said(melody('right', [55, 57, 59, 60, 62, 64, 66, 67], '12312345'));
    console.log(texts.filter(Boolean).join('\n'));
    expect(texts).toEqual([
      '',
      '2 comes out: A lies between two black keys',
      '3 comes out: B has a black key beside it',
      'the thumb goes in: it is short and needs a hold on C',
      '2 comes out: D lies between two black keys',
      '3 moves in, ready for 4: F sharp is a black key',
      '4 goes in: F sharp is a black key',
      '',
    ]);
  });

  it.each([
    ['en', 'B flat is a black key', 'C sharp'],
    ['de', 'B ist eine schwarze Taste', 'Cis'],
    ['fr', 'si bémol est une touche noire', 'do dièse'],
    ['es', 'si bemol es una tecla negra', 'do sostenido'],
    ['it', 'si bemolle è un tasto nero', 'do diesis'],
  ] as const)('name keys as the score writes them, in the words of %s', (language, flat, sharp) => {
    const given = melody('right', [65, 67, 69, 70, 72, 73], '123412');
    // B flat 4 on the line of B, C sharp 5 on the line of C.
    const written = new Map([
      [70, 34],
      [73, 35],
    ]);
    const slices = given.line.slices.map((slice) => ({
      ...slice,
      struck: slice.struck.map((own) => {
        const diatonic = written.get(own.key);
        return diatonic === undefined ? own : { ...own, diatonic };
      }),
    }));
    const texts = said({ ...given, line: { ...given.line, slices } }, language).join('\n');
    console.log(texts);
    expect(texts).toContain(flat);
    expect(texts).toContain(sharp);
    expect(texts).not.toMatch(/[{}]|undefined/);
  });

  it('are given wherever the depth changes, and nowhere else, and can be put into words in every language', () => {
    fc.assert(
      fc.property(steps(20), fc.constantFrom(...(Object.keys(LANGUAGES) as Language[])), (all, language) => {
        for (const { depthChange, reason } of plan(lineOf('right', all)).slices) {
          expect(reason === undefined).toBe(depthChange === 0);
          if (reason) expect(reasonText(reason, language)).toMatch(/^[^{}]+$/);
        }
      }),
    );
  });
});

describe('the state of every slice', () => {
  it('adds up: changes to depths, depths to the travel, tips and curls to each finger in use', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        const given = lineOf('right', all);
        const { slices, depthTravel } = plan(given);
        expect(slices).toHaveLength(all.length);
        let travel = 0;
        slices.forEach((slice, at) => {
          const before = slices[at - 1] ?? slice;
          expect(slice.depthChange).toBe(slice.depth - before.depth);
          expect(slice.armChange).toBeCloseTo(slice.arm - before.arm, 9);
          travel += Math.abs(slice.depthChange);
          expect(slice.fingers.map((own) => own.finger)).toEqual([...all[at]!.fingers]);
          expect(slice.fingers.map((own) => own.key)).toEqual([...all[at]!.keys]);
          if (slice.lean) expect(slice.depthChange).toBeGreaterThan(0);
        });
        expect(depthTravel).toBe(travel);
      }),
    );
  });

  it('passes through keys that no finger can play, and through an empty line', () => {
    const given = melody('right', [60, 62, 64], '123');
    const gaps = {
      slices: [given.fingers.slices[0]!, { struck: [null], held: [] }, given.fingers.slices[2]!],
    };
    const { slices } = planMotion(given.line, gaps, hand);
    expect(slices[1]!.fingers).toEqual([]);
    for (const slice of slices) expect(Number.isFinite(slice.depth + slice.arm + slice.roll)).toBe(true);
    const none = planMotion(given.line, { slices: [] }, hand);
    expect(none.slices.every((slice) => Number.isFinite(slice.depth + slice.arm))).toBe(true);
    expect(none.depthTravel).toBe(0);
    expect(planMotion(lineOf('right', []).line, { slices: [] }, hand)).toEqual({
      slices: [],
      findings: [],
      depthTravel: 0,
    });
  });

  it('counts held fingers: a thumb held deep among the black keys keeps the arm in', () => {
    // In notes so slow that 2 comes out from between the black keys.
    const free = plan(melody('right', [61, 62], '12', 2)).slices[1]!.depth;
    const steps = [
      { keys: [61], fingers: [1] },
      { keys: [62], fingers: [2], held: [{ key: 61, finger: 1, since: 0 }] },
    ] as const;
    const held = plan(lineOf('right', steps, 2)).slices[1]!;
    expect(held.fingers.map((own) => own.finger)).toEqual([2, 1]);
    expect(held.depth).toBeGreaterThan(free + 20);
  });
});
