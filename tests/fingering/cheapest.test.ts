import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { alternatives } from '#core/fingering/alternatives.js';
import type { Bias } from '#core/fingering/cost/objective.js';
import { fingerLine, prepare } from '#core/fingering/finger.js';
import { leastCostsThrough } from '#core/fingering/search/backward.js';
import { leastChoice, Search } from '#core/fingering/search/forward.js';
import { cheapestPaths } from '#core/fingering/search/k-best.js';
import { nextFingers, secondChoices } from '#core/fingering/second-choices.js';
import { rounded } from '#core/numeric/fixed-point.js';
import type { Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { eachFingering, fingerings, Ledger } from './enumerate.js';
import { again, type Happening, happenings, lineOf, type Texture } from './lines.js';
import { Likeness } from './restated/likeness.js';

/** Costs are told with six decimal places, and a fingering has some dozens of terms. */
/** mm equivalents that a second choice may cost more: the options of `annotate`, `alternatives`. */
const MARGIN = 8;
const ROUNDING = 1e-4;
const MOST_FINGERINGS = 4000;

/** Every fingering with its least cost over all depths, found for that fingering alone; cheapest first. */
function everyFingering(ledger: Ledger): { path: number[]; cost: number }[] {
  const all: { path: number[]; cost: number }[] = [];
  const walk = (path: number[]): void => {
    const { views } = ledger;
    if (path.length < views.length) {
      views[path.length]!.candidates.forEach((_, candidate) => {
        walk([...path, candidate]);
      });
      return;
    }
    let depths: number[] = [];
    let sum = 0;
    path.forEach((candidate, at) => {
      sum += ledger.added(path.slice(0, at + 1), at);
      const row = ledger.discomfort(at, candidate);
      depths = Array.from(row, (own, to) =>
        at === 0 ? own : own + Math.min(...depths.map((cost, from) => cost + ledger.move(at, from, to))),
      );
    });
    all.push({ path, cost: sum + Math.min(...depths) });
  };
  walk([]);
  return all.sort((a, b) => a.cost - b.cost);
}

const TEXTURES: readonly { name: string; texture: Texture; least: number; most: number }[] = [
  { name: 'single notes', texture: { keys: 1, holds: 0, ambit: 9 }, least: 1, most: 5 },
  { name: 'chords', texture: { keys: 3, holds: 0, ambit: 14 }, least: 1, most: 4 },
  {
    name: 'two voices, some digits given',
    texture: { keys: 2, holds: 3, ambit: 12, digits: true },
    least: 2,
    most: 5,
  },
];

interface Case {
  readonly hand: Hand;
  readonly span: string;
  readonly events: readonly Happening[];
  readonly bias: readonly number[];
}

const cases = (texture: Texture, least: number, most: number): fc.Arbitrary<Case> =>
  fc.record({
    hand: fc.constantFrom<Hand>('right', 'left'),
    span: fc.constantFrom('small', 'medium', 'large'),
    events: happenings(texture, least, most),
    bias: fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 5, maxLength: 5 }),
  });

function setUp({ hand, span, events, bias }: Case) {
  const model = handModel(span);
  const prepared = prepare(lineOf(hand, events), model, { keepDigits: true });
  const { views } = prepared;
  fc.pre(fingerings(views) <= MOST_FINGERINGS);
  const extra: Bias = views.map(({ candidates }) => candidates.map((_, nth) => bias[nth % 5]!));
  const objective = prepared.objective.with(extra);
  return {
    model,
    prepared,
    objective,
    choice: leastChoice(objective),
    all: everyFingering(new Ledger(views, model, extra)),
  };
}

describe.each(TEXTURES)('$name', ({ texture, least, most }) => {
  it('the cheapest fingerings are those of the whole enumeration, in order and distinct', () => {
    let compared = 0;
    fc.assert(
      fc.property(cases(texture, least, most), fc.integer({ min: 1, max: 30 }), (own, count) => {
        const { objective, all } = setUp(own);
        const found = cheapestPaths(objective, count);
        expect(found).toHaveLength(Math.min(count, all.length));
        expect(new Set(found.map(String)).size).toBe(found.length);
        const costOf = new Map(all.map(({ path, cost }) => [String(path), cost]));
        found.forEach((path, nth) => {
          expect(costOf.get(String(path))).toBe(all[nth]!.cost);
        });
        compared += found.length;
      }),
      rounds(10, 125),
    );
    console.log(`alternatives, ${least}-${most} slices: ${compared} fingerings equal the enumeration's`);
  });

  it('the least cost through every candidate is that of the enumeration, as far as the margin goes', () => {
    let [within, beyond] = [0, 0];
    fc.assert(
      fc.property(
        cases(texture, least, most),
        fc.constantFrom(0, 8, 25, 60, Number.POSITIVE_INFINITY),
        (own, margin) => {
          const { objective, all } = setUp(own);
          const limit = all[0]!.cost + margin;
          const search = new Search();
          search.find(objective);
          leastCostsThrough(objective, search, limit).forEach((costs, at) => {
            costs.forEach((cost, candidate) => {
              const best = all.find(({ path }) => path[at] === candidate)!;
              if (best.cost <= limit) {
                expect(cost).toBe(best.cost);
                within++;
              } else {
                expect(cost).toBeGreaterThan(limit);
                beyond++;
              }
            });
          });
        },
      ),
      rounds(15, 200),
    );
    expect(within).toBeGreaterThan(0);
    expect(beyond).toBeGreaterThan(0);
  });

  it('a struck key has another finger exactly where a fingering with it costs at most 8 mm more, and a next best one', () => {
    fc.assert(
      fc.property(cases(texture, least, most), fc.integer({ min: 1, max: 4 }), (own, count) => {
        const { objective, choice, all } = setUp(own);
        const next = nextFingers([objective], choice.path);
        secondChoices(objective, choice.path, count).forEach((keys, at) => {
          const view = objective.views[at]!;
          view.keys.forEach((_, nth) => {
            if (!view.struck[nth]) return;
            const fingerOf = (candidate: number) => view.candidates[candidate]!.fingers[nth]!;
            const costs = new Map<number, number>();
            for (const { path, cost } of all) {
              const finger = fingerOf(path[at]!);
              if (!costs.has(finger)) costs.set(finger, cost - all[0]!.cost);
            }
            costs.delete(fingerOf(choice.path[at]!));
            const [best] = costs;
            const nextBest = next[at]![view.source[nth]!];
            expect(nextBest?.cost ?? null).toBe(best ? rounded(best[1]) : null);
            if (nextBest) expect(rounded(costs.get(nextBest.finger)!)).toBe(nextBest.cost);
            const near = [...costs].filter(([, cost]) => cost <= MARGIN);
            const others = keys[view.source[nth]!]!;
            expect(others).toHaveLength(Math.min(count, near.length));
            others.forEach((finger, place) => {
              expect(costs.get(finger)).toBe(near[place]![1]);
            });
          });
        });
      }),
      rounds(10, 125),
    );
  });
});

it('every alternative explains its own cost', () => {
  fc.assert(
    fc.property(cases({ keys: 2, holds: 1, ambit: 14 }, 2, 8), ({ hand, span, events }) => {
      const model = handModel(span);
      const line = lineOf(hand, events);
      const found = alternatives(line, model, { count: 6 });
      let before = Number.NEGATIVE_INFINITY;
      for (const { cost, slices } of found) {
        const terms = slices
          .flatMap((slice) => Object.values(slice.terms))
          .reduce((sum, own) => sum + own, 0);
        expect(Math.abs(terms - cost)).toBeLessThan(ROUNDING);
        expect(cost).toBeGreaterThanOrEqual(before);
        before = cost;
      }
    }),
    rounds(10, 125),
  );
});

it('alternatives of like figures are those of the whole enumeration, inconsistency paid; the first is ours', () => {
  let unlike = 0;
  fc.assert(
    fc.property(
      fc.constantFrom<Hand>('right', 'left'),
      happenings({ keys: 1, holds: 0, ambit: 9 }, 2, 3),
      fc.boolean(),
      fc.integer({ min: 1, max: 30 }),
      (hand, events, octaves, count) => {
        const model = handModel('medium');
        const line = lineOf(hand, again(events, events.length === 2 ? 3 : 2, octaves));
        const { views } = prepare(line, model, {});
        const likeness = new Likeness(views);
        const all: number[] = [];
        eachFingering(new Ledger(views, model), (moved, path) => {
          all.push(moved + likeness.paid(path));
        });
        all.sort((a, b) => a - b);
        const found = alternatives(line, model, { count });
        expect(found).toHaveLength(count);
        found.forEach(({ cost, slices }, nth) => {
          expect(Math.abs(cost - all[nth]!)).toBeLessThan(ROUNDING);
          if (slices.some(({ terms }) => (terms.likeness ?? 0) > 0)) unlike++;
        });
        expect(new Set(found.map(({ slices }) => slices.map(({ struck }) => struck).join())).size).toBe(
          count,
        );
        expect(Math.abs(fingerLine(line, model).fingering.cost - found[0]!.cost)).toBeLessThan(ROUNDING);
      },
    ),
    rounds(10, 125),
  );
  expect(unlike).toBeGreaterThan(0);
});

it('a line of a thousand slices and an empty one end as they should', () => {
  const events = fc.sample(happenings({ keys: 1, holds: 0, ambit: 14 }, 1000, 1000), { numRuns: 1, seed: 5 });
  const model = handModel('medium');
  const found = alternatives(lineOf('right', events[0]!), model, { count: 10 });
  expect(found).toHaveLength(10);
  expect(alternatives({ hand: 'left', part: 0, slices: [] }, model)).toEqual([]);
  expect(alternatives(lineOf('right', events[0]!), model, { count: 0 })).toEqual([]);
});
