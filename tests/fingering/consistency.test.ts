import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { inconsistency } from '#core/fingering/consistency/consensus.js';
import { figuresOf } from '#core/fingering/consistency/figures.js';
import { consistentChoice } from '#core/fingering/consistency/settle.js';
import { leastChoice } from '#core/fingering/search/forward.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { eachFingering, Ledger, objectiveOf } from './enumerate.js';
import { again, happenings, lineOf, type Texture } from './lines.js';

const HANDS = fc.constantFrom<Hand>('right', 'left');
const model = handModel();
const NARROW: Texture = { keys: 1, holds: 0, ambit: 9 };
const PAIRS: Texture = { keys: 2, holds: 0, ambit: 9 };

function searched(views: readonly SliceView[]) {
  const objective = objectiveOf(views, model);
  const alike = consistentChoice(objective);
  const paid = alike.biased.reduce((sum, cost) => sum + cost, 0);
  return { path: alike.path, cost: alike.cost - paid, plain: leastChoice(objective) };
}

it.each([
  ['single keys', NARROW, 3, 50],
  ['keys and pairs of keys', PAIRS, 2, 10],
] as const)(
  'like figures of %s: the joint minimum of movement and inconsistency, against enumeration',
  (name, texture, most, few) => {
    const tally = { cases: 0, unlike: 0 };
    fc.assert(
      fc.property(HANDS, happenings(texture, 2, most), fc.boolean(), (hand, events, octaves) => {
        const line = lineOf(hand, again(events, events.length === 2 ? 3 : 2, octaves));
        const views = viewLine(line, model, true);
        const figures = figuresOf(views);
        const total = (cost: number, path: readonly number[]) => cost + inconsistency(views, figures, path);
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
      { ...rounds(few), seed: 1 },
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
        const figures = figuresOf(views).filter((own) => own.slices.includes(at + events.length));
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
