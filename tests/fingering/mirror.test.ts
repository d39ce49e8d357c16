import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { type Fingered, fingerLine } from '#core/fingering/finger.js';
import type { Line } from '#core/hands/line.js';
import { planMotion } from '#core/motion/motion.js';
import type { MotionPlan } from '#core/motion/plan.js';
import type { Finger, Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { type Happening, happenings, lineOf, type Texture } from './lines.js';

const SPANS = fc.constantFrom('small', 'medium', 'large');
const RUNS = rounds(80, 1000);

const TEXTURES: readonly { readonly name: string; readonly texture: Texture }[] = [
  { name: 'single notes', texture: { keys: 1, holds: 0 } },
  { name: 'two voices with held keys', texture: { keys: 2, holds: 3, ambit: 14, digits: true } },
  { name: 'chords, some out of reach', texture: { keys: 4, holds: 1, digits: true } },
];

function play(line: Line, span: string): { fingered: Fingered; plan: MotionPlan } {
  const hand = handModel(span);
  const fingered = fingerLine(line, hand, { keepDigits: true });
  return { fingered, plan: planMotion(line, fingered.fingering, hand) };
}

/** Digits in the order of the right hand's keys. */
function digits({ fingering }: Fingered): readonly (readonly (Finger | null)[])[] {
  const order = <T>(list: readonly T[]): readonly T[] =>
    fingering.line.hand === 'left' ? [...list].reverse() : list;
  return fingering.slices.flatMap(({ struck, held }) => [order(struck), order(held)]);
}

/** A plan as the right hand would play it: sides change over, `-0` counts as 0. */
function asRight(plan: MotionPlan, hand: Hand) {
  const side = hand === 'left' ? -1 : 1;
  const turned = { up: 'down', down: 'up' } as const;
  return plan.slices.map((slice) => ({
    depth: slice.depth,
    depthChange: slice.depthChange,
    lean: slice.lean,
    fingers: slice.fingers
      .map(({ finger, tip, curl }) => `${finger} ${tip.toFixed(6)} ${curl.toFixed(6)}`)
      .sort(),
    arm: side * slice.arm + 0,
    armChange: side * slice.armChange + 0,
    contour: slice.contour,
    roll: slice.roll,
    rollPrepare: slice.rollPrepare,
    crossing: slice.crossing && {
      ...slice.crossing,
      direction: side < 0 ? turned[slice.crossing.direction] : slice.crossing.direction,
    },
  }));
}

describe.each(TEXTURES)('$name', ({ texture }) => {
  it('mirrored about D for the other hand have the same digits, terms and the mirrored plan', () => {
    let [slices, held, doubts] = [0, 0, 0];
    fc.assert(
      fc.property(happenings(texture, 1, 16), SPANS, (events, span) => {
        const right = play(lineOf('right', events), span);
        const left = play(lineOf('left', events), span);
        expect(digits(left.fingered)).toEqual(digits(right.fingered));
        const terms = (own: Fingered) => own.fingering.slices.map((slice) => slice.terms);
        expect(terms(left.fingered)).toEqual(terms(right.fingered));
        expect(left.fingered.fingering.cost).toBe(right.fingered.fingering.cost);
        expect(left.fingered.doubts).toEqual(right.fingered.doubts);
        const [own, other] = [asRight(right.plan, 'right'), asRight(left.plan, 'left')];
        own.forEach((slice, at) => {
          const { arm, armChange, roll, contour, crossing, ...exact } = slice;
          const mirrored = other[at]!;
          expect(mirrored).toMatchObject(exact);
          expect(mirrored.arm).toBeCloseTo(arm, 6);
          expect(mirrored.armChange).toBeCloseTo(armChange, 6);
          expect(mirrored.roll).toBeCloseTo(roll, 6);
          expect(mirrored.contour).toBeCloseTo(contour, 6);
          expect(mirrored.crossing?.kind).toBe(crossing?.kind);
          if (crossing) {
            const { difficulty, ...facts } = crossing;
            expect(mirrored.crossing).toMatchObject(facts);
            expect(mirrored.crossing!.difficulty).toBeCloseTo(difficulty, 6);
          }
        });
        expect(left.plan.depthTravel).toBe(right.plan.depthTravel);
        slices += events.length;
        held += right.fingered.fingering.slices.reduce((sum, slice) => sum + slice.held.length, 0);
        doubts += right.fingered.doubts.length;
      }),
      RUNS,
    );
    console.log(`mirror: ${slices} slices, ${held} held keys, ${doubts} doubts in ${RUNS.numRuns} lines`);
    if (texture.holds > 0) expect(held).toBeGreaterThan(RUNS.numRuns);
  });

  it('an octave higher or lower cost the same and have the same digits, unless another choice costs as little', () => {
    let ties = 0;
    fc.assert(
      fc.property(
        happenings(texture, 1, 16),
        SPANS,
        fc.constantFrom<Hand>('right', 'left'),
        fc.constantFrom(-12, 12, 24),
        (events, span, hand, shift) => {
          const [here, there] = [0, shift].map((own) => play(lineOf(hand, events, own), span).fingered);
          expect(there!.fingering.cost).toBe(here!.fingering.cost);
          const same = JSON.stringify(digits(there!)) === JSON.stringify(digits(here!));
          if (!same) ties += 1;
        },
      ),
      RUNS,
    );
    console.log(`octaves: ${ties} of ${RUNS.numRuns} lines with another choice of equal cost`);
    expect(ties).toBeLessThan(RUNS.numRuns / 50);
  });

  it('are fingered alike every time, whatever was fingered before', () => {
    const anyLine = fc.tuple(happenings(texture, 1, 12), fc.constantFrom<Hand>('right', 'left'));
    const answers = new Map<string, string>();
    const answer = (events: readonly Happening[], hand: Hand, span: string): string =>
      JSON.stringify(fingerLine(lineOf(hand, events), handModel(span), { keepDigits: true }));
    const seen: { readonly events: readonly Happening[]; readonly hand: Hand }[] = [];
    fc.assert(
      fc.property(anyLine, ([events, hand]) => {
        seen.push({ events, hand });
        answers.set(JSON.stringify([events, hand]), answer(events, hand, 'medium'));
      }),
      { numRuns: 60 },
    );
    for (const { events, hand } of [...seen].reverse()) {
      answer(events, hand, 'small');
      expect(answer(events, hand, 'medium')).toBe(answers.get(JSON.stringify([events, hand])));
    }
  });
});
