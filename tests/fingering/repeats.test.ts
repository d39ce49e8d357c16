import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { alternatives } from '#core/fingering/alternatives.js';
import type { Choice } from '#core/fingering/cost/choice.js';
import { DEPTH_COUNT } from '#core/fingering/cost/depth.js';
import { fingerLine, type Prepared, prepare } from '#core/fingering/finger.js';
import { joinedView } from '#core/fingering/repeats/join-costs.js';
import { settleJoins } from '#core/fingering/repeats/settle.js';
import { leastChoice } from '#core/fingering/search/forward.js';
import { buildLines } from '#core/hands/build.js';
import { type Flow, playedFlow } from '#core/hands/joins.js';
import type { Line } from '#core/hands/line.js';
import { Clock } from '#core/score/tempo.js';
import { attributes, note, onePart, readText } from '../musicxml/read-source.js';
import { rounds } from '../rounds.js';
import { fingerings, Ledger, objectiveOf } from './enumerate.js';
import { happenings, lineOf } from './lines.js';

const model = handModel();

/** Cost of a fingering and its depths on the printed line and across every join, counted one by one. */
function wholeCost(
  { views, costs, grid }: Prepared,
  { joins }: Flow,
  { path, depths }: Omit<Choice, 'biased' | 'cost'>,
) {
  const ledger = new Ledger(views, model);
  let cost = 0;
  path.forEach((candidate, at) => {
    cost += ledger.added(path, at) + ledger.discomfort(at, candidate)[depths[at]!]!;
    if (at > 0) cost += ledger.move(at, depths[at - 1]!, depths[at]!);
  });
  for (const join of joins) {
    const [from, to] = [views[join.from]!, joinedView(views[join.to]!, join)];
    const fingers = (at: number) => [views[at]!.candidates[path[at]!]!];
    cost += costs.pairs(from, to, fingers(join.from), fingers(join.to))[0]!;
    cost += grid.kernel(to)[depths[join.from]! * DEPTH_COUNT + depths[join.to]!]!;
    if (join.from > 0 && !from.cut) {
      const [first, own] = [join.from - 1, join.from];
      cost += costs.triples(views[first]!, from, to, fingers(first), fingers(own), fingers(join.to))[0]!;
    }
    const after = views[join.to + 1];
    if (after && !after.cut) {
      cost += costs.triples(from, to, after, fingers(join.from), fingers(join.to), fingers(join.to + 1))[0]!;
    }
  }
  return cost;
}

const ALL_DEPTHS = [...Array(DEPTH_COUNT).keys()];

/** The least of all fingerings and some depths. */
function leastOfAll(prepared: Prepared, flow: Flow, levels: readonly number[]): number {
  const { views } = prepared;
  let best = Number.POSITIVE_INFINITY;
  const walk = (path: number[], depths: number[]): void => {
    const at = path.length;
    if (at === views.length) {
      best = Math.min(best, wholeCost(prepared, flow, { path, depths }));
      return;
    }
    views[at]!.candidates.forEach((_, candidate) => {
      for (const depth of levels) walk([...path, candidate], [...depths, depth]);
    });
  };
  walk([], []);
  return best;
}

const flows = (count: number): fc.Arbitrary<Flow> => {
  const at = fc.integer({ min: 0, max: count - 1 });
  const join = fc.record({
    from: at,
    to: at,
    seconds: fc.constantFrom(0.2, 0.5, 2),
    free: fc.constantFrom(0, 0.3),
  });
  return fc.record({
    joins: fc.uniqueArray(join, {
      minLength: 1,
      maxLength: 3,
      selector: ({ from, to }) => from * count + to,
    }),
    cuts: fc.array(fc.integer({ min: 1, max: count - 1 }), { maxLength: 1 }).map((list) => new Set(list)),
  });
};

function settle(line: Line, flow: Flow) {
  const prepared = prepare(line, model, { keepDigits: true, flow });
  const { objective, costs, grid } = prepared;
  const start = leastChoice(objective);
  const settled = settleJoins(start, objective, flow, costs, grid);
  return { prepared, start, settled };
}

describe('joins of repeats', () => {
  it('are paid as stated, never make the whole dearer, and are settled for good', () => {
    let better = 0;
    const texture = { keys: 2, holds: 1, ambit: 14 };
    fc.assert(
      fc.property(happenings(texture, 6, 14), flows(6), (events, flow) => {
        const line = lineOf('right', events);
        const { prepared, start, settled } = settle(line, flow);
        const { choice } = settled;
        const [before, after] = [start, choice].map((own) => wholeCost(prepared, flow, own)) as [
          number,
          number,
        ];
        expect(choice.cost).toBe(after);
        expect(after).toBeLessThanOrEqual(before);
        if (after < before) better++;
        const { fingering } = fingerLine(line, model, { keepDigits: true, flow });
        const terms = fingering.slices.flatMap((slice) => Object.values(slice.terms));
        // Told with six decimal places each.
        expect(Math.abs(terms.reduce((sum, own) => sum + own, 0) - fingering.cost)).toBeLessThan(1e-4);
        expect(Number.isFinite(fingering.cost)).toBe(true);
      }),
      { numRuns: 150 },
    );
    console.log(`joins: 150 lines, the joins make ${better} of them cheaper as a whole`);
    expect(better).toBeGreaterThan(10);
  });

  it('of long lines change only what lies around them', () => {
    let changed = 0;
    fc.assert(
      fc.property(happenings({ keys: 2, holds: 1, ambit: 14 }, 90, 110), flows(90), (events, flow) => {
        const { prepared, start, settled } = settle(lineOf('left', events), flow);
        const { choice } = settled;
        expect(choice.cost).toBe(wholeCost(prepared, flow, choice));
        expect(choice.cost).toBeLessThanOrEqual(wholeCost(prepared, flow, start));
        const ends = flow.joins.flatMap(({ from, to }) => [from, to]);
        choice.path.forEach((candidate, at) => {
          if (candidate === start.path[at]) return;
          changed++;
          expect(Math.min(...ends.map((end) => Math.abs(end - at)))).toBeLessThanOrEqual(12);
        });
      }),
      { numRuns: 60 },
    );
    expect(changed).toBeGreaterThan(0);
  });

  it('of short lines come near the least of all fingerings', () => {
    const single = { keys: 1, holds: 0, ambit: 12 };
    let [cases, equal, worst] = [0, 0, 0];
    fc.assert(
      fc.property(happenings(single, 3, 3), flows(3), (events, flow) => {
        const { prepared, settled } = settle(lineOf('right', events), flow);
        fc.pre(fingerings(prepared.views) <= 125);
        const gap = settled.choice.cost - leastOfAll(prepared, flow, [0, 2, 4, 6]);
        cases++;
        if (gap <= 0) equal++;
        worst = Math.max(worst, gap);
      }),
      { ...rounds(10), seed: 11 },
    );
    console.log(
      `joins: ${equal} of ${cases} least of all fingerings, at worst ${worst.toFixed(1)} mm dearer`,
    );
    expect(equal / cases).toBeGreaterThan(0.3);
  });
});

it('alternatives pay for joins: the first is the printed one, none costs less than its fingers can', () => {
  let compared = 0;
  fc.assert(
    fc.property(happenings({ keys: 1, holds: 0, ambit: 12 }, 3, 3), flows(3), (events, flow) => {
      const line = lineOf('right', events);
      const { views } = prepare(line, model, { keepDigits: true, flow });
      const [first, ...others] = alternatives(line, model, { flow, count: 4 });
      expect(first).toEqual(fingerLine(line, model, { flow }).fingering);
      for (const { slices, cost } of others) {
        const terms = slices.flatMap((slice) => Object.values(slice.terms));
        expect(Math.abs(terms.reduce((sum, own) => sum + own, 0) - cost)).toBeLessThan(1e-4);
        const held = views.map((view, at) => ({
          ...view,
          candidates: view.candidates.filter(({ fingers }) => fingers[0] === slices[at]!.struck[0]),
        }));
        const prepared = { ...prepare(line, model, { keepDigits: true, flow }), views: held };
        const unlike = slices.reduce((sum, slice) => sum + (slice.terms.likeness ?? 0), 0);
        expect(cost).toBeGreaterThanOrEqual(leastOfAll(prepared, flow, ALL_DEPTHS) + unlike - 1e-4);
        compared++;
      }
    }),
    { numRuns: 40 },
  );
  expect(compared).toBeGreaterThan(30);
});

describe('a piece with two endings', () => {
  const barline = (side: string, content: string) => `<barline location="${side}">${content}</barline>`;
  const eighths = (names: string) =>
    names
      .split(' ')
      .map((name) => note(name, 2))
      .join('');
  const piece = (section: string, first: string, second: string) =>
    onePart([
      `${attributes(4, 1)}${barline('left', '<repeat direction="forward"/>')}${eighths(section)}`,
      `${barline('left', '<ending number="1" type="start"/>')}${eighths(first)}${barline('right', '<ending number="1" type="stop"/><repeat direction="backward"/>')}`,
      `${barline('left', '<ending number="2" type="start"/>')}${eighths(second)}${barline('right', '<ending number="2" type="stop"/>')}`,
    ]);
  const TUNES = [
    ['G4 A4 B4 C5 D5 E5 F#5 G5', 'A5 G5 F#5 E5 D5 C5 B4 A4', 'A5 B5 C6 D6 E6 F#6 G6 G6'],
    ['C4 E4 G4 C5 E5 G5 C6 E6', 'D6 B5 G5 F5 D5 B4 G4 B3', 'G5 E5 C5 G4 E4 C4 G3 C4'],
    ['Eb4 F4 G4 Ab4 Bb4 C5 D5 Eb5', 'D5 C5 Bb4 Ab4 G4 F4 Eb4 D4', 'F5 G5 Ab5 Bb5 C6 D6 Eb6 Eb6'],
    ['E4 F#4 G4 A4 B4 A4 G4 F#4', 'E4 D4 C4 B3 A3 B3 C4 D4', 'B4 C5 D5 E5 F#5 G5 A5 B5'],
  ] as const;

  it('is fingered for both ways on, at no more cost than without them', () => {
    let better = 0;
    for (const [section, first, second] of TUNES) {
      const { score } = readText(piece(section, first, second));
      const [line] = buildLines(score).lines;
      const flow = playedFlow(line!, score.parts[0]!, new Clock(score.tempo))!;
      expect(flow.joins.map(({ from, to }) => [from, to])).toEqual([
        [15, 0],
        [7, 16],
      ]);
      const { prepared, start, settled } = settle(line!, flow);
      const printed = alternatives(line!, model, { count: 1 })[0]!;
      const held = prepared.views.map((view, at) => ({
        ...view,
        candidates: view.candidates.filter(({ fingers }) => fingers[0] === printed.slices[at]!.struck[0]),
      }));
      const blind = leastChoice(objectiveOf(held, model));
      const path = prepared.views.map((view, at) =>
        view.candidates.findIndex(({ fingers }) => fingers[0] === printed.slices[at]!.struck[0]),
      );
      const costs = [{ path, depths: blind.depths }, start, settled.choice].map((own) =>
        wholeCost(prepared, flow, own),
      );
      const digits = prepared.views.map((view, at) => view.candidates[settled.choice.path[at]!]!.fingers[0]);
      console.log(
        `two endings, as printed ${printed.slices.map(({ struck }) => struck[0]).join('')} ${costs[0]!.toFixed(0)} mm, as played ${digits.join('')} ${costs[2]!.toFixed(0)} mm`,
      );
      expect(costs[2]!).toBeLessThanOrEqual(costs[0]!);
      expect(costs[2]!).toBeLessThanOrEqual(costs[1]!);
      if (costs[2]! < costs[0]!) better++;
    }
    expect(better).toBeGreaterThan(0);
  });
});
