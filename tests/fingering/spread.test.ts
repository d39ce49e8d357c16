import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { figuresOf } from '#core/fingering/consistency/figures/figures.js';
import { consistentChoice } from '#core/fingering/consistency/settle.js';
import { spread } from '#core/fingering/consistency/spread.js';
import { Search } from '#core/fingering/search/forward.js';
import { PrefixCosts } from '#core/fingering/search/prefix.js';
import { type SliceView, viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { objectiveOf } from './enumerate.js';
import { type Happening, happenings, lineOf } from './lines.js';
import { Likeness } from './restated/likeness.js';

const model = handModel();

/** A motif of single keys that recurs at several pitches, too long to search for the joint minimum. */
const preludes = fc
  .record({
    motif: happenings({ keys: 1, holds: 0, ambit: 9 }, 3, 6),
    moves: fc.array(fc.constantFrom(0, 0, 2, -1, 5, -5, 7), { minLength: 20, maxLength: 24 }),
  })
  .map(({ motif, moves }) =>
    moves.flatMap((move) =>
      motif.map(
        (event): Happening => ({
          ...event,
          seconds: 0.2,
          rest: 0,
          phraseStart: false,
          grace: false,
          presses: event.presses.map((press) => ({ ...press, key: press.key + move })),
        }),
      ),
    ),
  );

/** Costs of whole fingerings, each worked out from its beginning, inconsistencies as `Likeness` states them. */
class Judge {
  readonly likeness: Likeness;
  readonly #prefixes: PrefixCosts;

  constructor(readonly views: readonly SliceView[]) {
    this.likeness = new Likeness(views);
    this.#prefixes = new PrefixCosts(objectiveOf(views, model), []);
  }

  total(path: readonly number[]): number {
    return Math.min(...this.#prefixes.through(path)) + this.likeness.paid(path);
  }

  fingers(path: readonly number[], at: number): string {
    return this.views[at]!.candidates[path[at]!]!.fingers.join(' ');
  }

  /** The fingering with every occurrence of a figure as this one, from the first on, those that overlap left out. */
  alike(
    path: readonly number[],
    from: number,
    { slices, before, after }: Likeness['alike'][number],
  ): number[] {
    const next = [...path];
    let free = 0;
    for (const at of slices) {
      if (at - before < free) continue;
      for (let nth = -before; nth <= after; nth++) {
        const wanted = this.fingers(path, from + nth);
        const found = this.views[at + nth]!.candidates.findIndex(
          ({ fingers }) => fingers.join(' ') === wanted,
        );
        if (found >= 0) next[at + nth] = found;
      }
      free = at + after + 1;
    }
    return next;
  }
}

it('figures alike at all their places: what is found costs less than what it starts from', () => {
  let [cases, cheaper] = [0, 0];
  fc.assert(
    fc.property(fc.constantFrom<Hand>('right', 'left'), preludes, (hand, events) => {
      const views = viewLine(lineOf(hand, events), model, true);
      const objective = objectiveOf(views, model);
      const judge = new Judge(views);
      const start = new Search().find(objective);
      const found = spread(objective, figuresOf(views), start);
      cases++;
      if (!found) return;
      cheaper++;
      expect(judge.total(found)).toBeLessThan(judge.total(start.path));
    }),
    rounds(15, 150),
  );
  console.log(`figures alike at all their places: cheaper in ${cheaper} of ${cases} lines`);
  expect(cheaper).toBeGreaterThan(cases / 2);
});

it('the fingering found costs no more than the cheapest where likeness is free', () => {
  let better = 0;
  fc.assert(
    fc.property(preludes, (events) => {
      const views = viewLine(lineOf('right', events), model, true);
      const objective = objectiveOf(views, model);
      const judge = new Judge(views);
      const plain = new Search().find(objective);
      const found = judge.total(consistentChoice(objective).path);
      if (found < judge.total(plain.path) - 1e-6) better++;
      expect(found).toBeLessThanOrEqual(judge.total(plain.path) + 1e-6);
    }),
    rounds(8, 60),
  );
  expect(better).toBeGreaterThan(0);
});

it('in the fingering found, hardly any figure is cheaper with all its places as one of them', () => {
  let [lines, tried, cheaper] = [0, 0, 0];
  fc.assert(
    fc.property(fc.constantFrom<Hand>('right', 'left'), preludes, (hand, events) => {
      const views = viewLine(lineOf(hand, events), model, true);
      const judge = new Judge(views);
      const { path } = consistentChoice(objectiveOf(views, model));
      const total = judge.total(path);
      lines++;
      for (const figure of judge.likeness.alike) {
        const ways = new Set<string>();
        for (const at of figure.slices) {
          const next = judge.alike(path, at, figure);
          if (ways.has(next.join()) || next.every((own, nth) => own === path[nth])) continue;
          ways.add(next.join());
          tried++;
          if (judge.total(next) < total) cheaper++;
        }
      }
    }),
    rounds(8, 60),
  );
  console.log(`${tried} exchanges in ${lines} lines, ${cheaper} of them cheaper`);
  expect(tried).toBeGreaterThan(lines);
  expect(cheaper).toBeLessThanOrEqual(tried / 50);
});
