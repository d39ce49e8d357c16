import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { inconsistency } from '#core/fingering/consistency/consensus.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { consistentChoice } from '#core/fingering/consistency/settle.js';
import { leastChoice } from '#core/fingering/search/forward.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { LONG, rounds } from '../rounds.js';
import { eachFingering, Ledger, objectiveOf } from './enumerate.js';
import { again, type Happening, happenings, lineOf, type Texture } from './lines.js';
import { Likeness } from './restated/likeness.js';

const HANDS = fc.constantFrom<Hand>('right', 'left');
const model = handModel();
const NARROW: Texture = { keys: 1, holds: 0, ambit: 9 };
const PAIRS: Texture = { keys: 2, holds: 0, ambit: 9 };

/** Scales and arpeggios up and down, over one octave or more, with a rest now and then. */
const runs = fc
  .record({
    tonic: fc.integer({ min: 45, max: 60 }),
    steps: fc.constantFrom([2, 2, 1, 2, 2, 2, 1], [2, 1, 2, 2, 1, 3, 1], [4, 3, 5], [3, 3, 3, 3], [1]),
    notes: fc.integer({ min: 5, max: 16 }),
    back: fc.boolean(),
    rests: fc.array(fc.nat(40), { maxLength: 2 }),
    seconds: fc.constantFrom(0.15, 0.25, 0.5),
  })
  .map(({ tonic, steps, notes, back, rests, seconds }) => {
    const up = [tonic];
    while (up.length < notes) up.push(up.at(-1)! + steps[(up.length - 1) % steps.length]!);
    const keys = back ? [...up, ...up.toReversed().slice(1)] : up;
    return keys.map(
      (key, at): Happening => ({
        presses: [{ key, holds: 0, pedalled: false }],
        seconds: rests.includes(at) ? 1.2 : seconds,
        rest: rests.includes(at) ? 0.9 : 0,
        phraseStart: false,
        grace: false,
        onBeat: at % 2 === 0,
      }),
    );
  });

function searched(views: readonly SliceView[]) {
  const objective = objectiveOf(views, model);
  const alike = consistentChoice(objective);
  const paid = alike.biased.reduce((sum, cost) => sum + cost, 0);
  return { path: alike.path, cost: alike.cost - paid, plain: leastChoice(objective) };
}

it.each([
  ['single keys', NARROW, 3, 20, 1],
  ['keys and pairs of keys', PAIRS, 2, 5, 2],
] as const)(
  'like figures of %s: the joint minimum of movement and inconsistency, against enumeration',
  (name, texture, most, few, seed) => {
    const tally = { cases: 0, unlike: 0 };
    fc.assert(
      fc.property(HANDS, happenings(texture, 2, most), fc.boolean(), (hand, events, octaves) => {
        const line = lineOf(hand, again(events, events.length === 2 ? 3 : 2, octaves));
        const views = viewLine(line, model, true);
        const likeness = new Likeness(views);
        const total = (cost: number, path: readonly number[]) => cost + likeness.paid(path);
        const { path, cost, plain } = searched(views);
        let least = Number.POSITIVE_INFINITY;
        eachFingering(new Ledger(views, model), (own, fingers) => {
          if (own < least) least = Math.min(least, total(own, fingers));
        });
        const own = total(cost, path);
        expect(own).toBe(least);
        tally.cases++;
        if (total(plain.cost, plain.path) > plain.cost) tally.unlike++;
      }),
      { ...rounds(few, 15 * few), ...(LONG ? {} : { seed }) },
    );
    console.log(
      `likeness, ${name}: ${tally.cases} lines, in ${tally.unlike} the least movement is unlike itself`,
    );
    expect(tally.unlike).toBeGreaterThan(0);
  },
);

it('a digit that the file gives once is mostly taken over by the same figures elsewhere', () => {
  let taken = 0;
  let cases = 0;
  fc.assert(
    fc.property(
      HANDS,
      happenings(NARROW, 3, 5),
      fc.nat(4),
      fc.constantFrom(1, 2, 3, 4, 5),
      (hand, events, nth, finger) => {
        const line = lineOf(hand, again(events, 3, false));
        const at = nth % events.length;
        const slices = line.slices.map((slice, index) =>
          index === at + events.length
            ? { ...slice, struck: slice.struck.map((key) => ({ ...key, fixed: finger as 1 })) }
            : slice,
        );
        const views = viewLine({ ...line, slices }, model, true);
        const { path } = searched(views);
        const at3 = (index: number) => views[index]!.candidates[path[index]!]!.fingers.join('');
        const figures = new Likeness(views).alike.filter((own) => own.slices.includes(at + events.length));
        cases++;
        const alike = figures.every(({ slices: same }) =>
          same.every((index) => at3(index) === String(finger)),
        );
        if (alike) taken++;
        expect(at3(at + events.length)).toBe(String(finger));
      },
    ),
    { numRuns: 100, seed: 1 },
  );
  console.log(`likeness: a given digit holds for all its equals in ${taken} of ${cases} lines`);
  expect(taken).toBeGreaterThanOrEqual(cases / 2);
});

it('a fingering pays for its inconsistencies what the description says, whatever the line', () => {
  let [cases, paying] = [0, 0];
  const STEPS: Texture = { keys: 1, holds: 0, ambit: 4 };
  const lines = fc.oneof(
    happenings(PAIRS, 2, 6).map((events) => again(events, 3, true)),
    happenings({ keys: 3, holds: 1, ambit: 14, digits: true }, 2, 6).map((events) => again(events, 3, false)),
    happenings(STEPS, 4, 30),
    happenings({ keys: 1, holds: 0, ambit: 1 }, 16, 40),
    runs,
  );
  fc.assert(
    fc.property(HANDS, lines, fc.infiniteStream(fc.nat(999)), (hand, events, choices) => {
      const views = viewLine(lineOf(hand, events), model, true);
      const figures = figuresOf(views);
      const likeness = new Likeness(views);
      for (let nth = 0; nth < 5; nth++) {
        // At first nearly everywhere the same fingers, then anything.
        const path = views.map(({ candidates }) => {
          const choice = choices.next().value;
          return nth < 3 && choice % 4 > 0 ? 0 : choice % candidates.length;
        });
        const own = likeness.paid(path);
        expect(inconsistency(views, figures, path)).toBe(own);
        cases++;
        if (own > 0) paying++;
      }
    }),
    rounds(80, 1000),
  );
  expect(paying).toBeGreaterThan(cases / 2);
});
