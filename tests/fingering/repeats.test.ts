import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { alternatives } from '#core/fingering/alternatives.js';
import type { Choice } from '#core/fingering/cost/choice.js';
import { DEPTH_COUNT } from '#core/fingering/cost/depth.js';
import { fingerLine, prepare } from '#core/fingering/finger.js';
import { settleJoins } from '#core/fingering/repeats/settle.js';
import { leastChoice } from '#core/fingering/search/forward.js';
import type { SliceView } from '#core/fingering/view/view.js';
import { buildLines } from '#core/hands/build.js';
import { type Flow, playedFlow } from '#core/hands/joins.js';
import type { Line } from '#core/hands/line.js';
import { Clock } from '#core/score/tempo.js';
import { attributes, note, onePart, readText } from '../musicxml/read-source.js';
import { LONG, rounds } from '../rounds.js';
import { fingerings, Ledger, objectiveOf } from './enumerate.js';
import { happenings, lineOf } from './lines.js';
import { JoinLedger } from './restated/joins.js';

const model = handModel();

/** The cost of fingerings and depths on the printed line and across every join, counted one by one. */
class Whole {
  readonly #ledger: Ledger;
  readonly #joins: JoinLedger;

  constructor(
    line: Line,
    private readonly views: readonly SliceView[],
    flow: Flow,
  ) {
    this.#ledger = new Ledger(views, model);
    this.#joins = new JoinLedger(line, model, flow, views);
  }

  cost({ path, depths }: Pick<Choice, 'path' | 'depths'>): number {
    let cost = this.#joins.cost(path, depths);
    path.forEach((candidate, at) => {
      cost += this.#ledger.added(path, at) + this.#ledger.discomfort(at, candidate)[depths[at]!]!;
      if (at > 0) cost += this.#ledger.move(at, depths[at - 1]!, depths[at]!);
    });
    return cost;
  }

  /** The least of all fingerings and some depths. */
  least(levels: readonly number[]): number {
    let best = Number.POSITIVE_INFINITY;
    const walk = (path: number[], depths: number[]): void => {
      const at = path.length;
      if (at === this.views.length) {
        best = Math.min(best, this.cost({ path, depths }));
        return;
      }
      this.views[at]!.candidates.forEach((_, candidate) => {
        for (const depth of levels) walk([...path, candidate], [...depths, depth]);
      });
    };
    walk([], []);
    return best;
  }
}

const ALL_DEPTHS = [...Array(DEPTH_COUNT).keys()];

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
  return { prepared, start, settled, whole: new Whole(line, prepared.views, flow) };
}

describe('joins of repeats', () => {
  it('are paid as stated, never make the whole dearer, and are settled for good', () => {
    let better = 0;
    const texture = { keys: 2, holds: 1, ambit: 14 };
    fc.assert(
      fc.property(happenings(texture, 6, 14), flows(6), (events, flow) => {
        const line = lineOf('right', events);
        const { start, settled, whole } = settle(line, flow);
        const { choice } = settled;
        const [before, after] = [start, choice].map((own) => whole.cost(own)) as [number, number];
        expect(choice.cost).toBe(after);
        expect(after).toBeLessThanOrEqual(before);
        if (after < before) better++;
        const { fingering } = fingerLine(line, model, { keepDigits: true, flow });
        const terms = fingering.slices.flatMap((slice) => Object.values(slice.terms));
        // Told with six decimal places each.
        expect(Math.abs(terms.reduce((sum, own) => sum + own, 0) - fingering.cost)).toBeLessThan(1e-4);
        expect(Number.isFinite(fingering.cost)).toBe(true);
      }),
      rounds(50, 750),
    );
    console.log(`joins: 150 lines, the joins make ${better} of them cheaper as a whole`);
    expect(better).toBeGreaterThan(10);
  });

  it('of long lines change only what lies around them', () => {
    let changed = 0;
    fc.assert(
      fc.property(happenings({ keys: 2, holds: 1, ambit: 14 }, 90, 110), flows(90), (events, flow) => {
        const { start, settled, whole } = settle(lineOf('left', events), flow);
        const { choice } = settled;
        expect(choice.cost).toBe(whole.cost(choice));
        expect(choice.cost).toBeLessThanOrEqual(whole.cost(start));
        const ends = flow.joins.flatMap(({ from, to }) => [from, to]);
        choice.path.forEach((candidate, at) => {
          if (candidate === start.path[at]) return;
          changed++;
          expect(Math.min(...ends.map((end) => Math.abs(end - at)))).toBeLessThanOrEqual(12);
        });
      }),
      rounds(20, 300),
    );
    expect(changed).toBeGreaterThan(0);
  });

  it('of short lines come near the least of all fingerings', () => {
    const single = { keys: 1, holds: 0, ambit: 12 };
    let [cases, equal, worst] = [0, 0, 0];
    fc.assert(
      fc.property(happenings(single, 3, 3), flows(3), (events, flow) => {
        const { prepared, settled, whole } = settle(lineOf('right', events), flow);
        fc.pre(fingerings(prepared.views) <= 125);
        const gap = settled.choice.cost - whole.least([0, 2, 4, 6]);
        cases++;
        if (gap <= 0) equal++;
        worst = Math.max(worst, gap);
      }),
      LONG ? rounds(10) : { ...rounds(10), seed: 11 },
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
        const whole = new Whole(line, held, flow);
        const unlike = slices.reduce((sum, slice) => sum + (slice.terms.likeness ?? 0), 0);
        expect(cost).toBeGreaterThanOrEqual(whole.least(ALL_DEPTHS) + unlike - 1e-4);
        compared++;
      }
    }),
    rounds(15, 200),
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
      const { prepared, start, settled, whole } = settle(line!, flow);
      const printed = alternatives(line!, model, { count: 1 })[0]!;
      const held = prepared.views.map((view, at) => ({
        ...view,
        candidates: view.candidates.filter(({ fingers }) => fingers[0] === printed.slices[at]!.struck[0]),
      }));
      const blind = leastChoice(objectiveOf(held, model));
      const path = prepared.views.map((view, at) =>
        view.candidates.findIndex(({ fingers }) => fingers[0] === printed.slices[at]!.struck[0]),
      );
      const costs = [{ path, depths: blind.depths }, start, settled.choice].map((own) => whole.cost(own));
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
