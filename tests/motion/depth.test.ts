import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { travelCost, travelWeight } from '#core/anatomy/travel.js';
import { isFree } from '#core/hands/fresh-start.js';
import { leastPath, planDepth } from '#core/motion/depth.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { GREATEST_DEPTH, GRID_SIZE, LEAST_DEPTH, TipTable } from '#core/motion/tips.js';
import { steps } from './arbitrary.js';
import { lineOf, mirrored } from './lines.js';

const FORBIDDEN = 1e6;

/** The stated cost of a path: discomfort plus travel. */
function costOf(rows: readonly Float64Array[], weights: readonly number[], path: readonly number[]): number {
  return path.reduce((sum, step, at) => {
    const travel = at === 0 ? 0 : travelCost(step - path[at - 1]!, weights[at]!);
    return sum + rows[at]![step]! + travel;
  }, 0);
}

/** Least cost by trying every path over the given grid steps. */
function enumerate(
  rows: readonly Float64Array[],
  weights: readonly number[],
  grid: readonly number[],
): number {
  let least = Number.POSITIVE_INFINITY;
  const walk = (path: number[]): void => {
    if (path.length === rows.length) {
      least = Math.min(least, costOf(rows, weights, path));
      return;
    }
    for (const step of grid) walk([...path, step]);
  };
  walk([]);
  return least;
}

/** The path by the definition: every origin of every step, costs rounded as the plan rounds them. */
function plainPath(rows: readonly Float64Array[], weights: readonly number[]): number[] {
  const steps = Array.from({ length: GRID_SIZE }, (_, step) => step);
  const travel = (mm: number, at: number): number =>
    Math.round(weights[at]! * travelCost(mm, 1) * 2 ** 16) / 2 ** 16;
  const lowest = (costs: readonly number[]): number => costs.indexOf(Math.min(...costs));
  const from: number[][] = [];
  let costs = [...rows[0]!];
  for (let at = 1; at < rows.length; at++) {
    const ways = steps.map((step) => steps.map((origin) => costs[origin]! + travel(step - origin, at)));
    from[at] = ways.map(lowest);
    costs = steps.map((step) => ways[step]![from[at]![step]!]! + rows[at]![step]!);
  }
  const path = [lowest(costs)];
  for (let at = rows.length - 1; at > 0; at--) path.unshift(from[at]![path[0]!]!);
  return path;
}

const weight = fc.constantFrom(0.015, 0.035, 0.06, 0.1);

describe('the depth plan is exact', () => {
  it('against every path over a coarse grid', () => {
    const grid = [0, 20, 37, 55, 80, 126];
    const row = fc.array(fc.integer({ min: 0, max: 24 }), { minLength: grid.length, maxLength: grid.length });
    const cases = fc.array(fc.tuple(row, weight), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(cases, (all) => {
        const rows = all.map(([costs]) => {
          const full = new Float64Array(GRID_SIZE).fill(FORBIDDEN);
          for (const [nth, cost] of costs.entries()) full[grid[nth]!] = cost / 4;
          return full;
        });
        const weights = all.map(([, own]) => own);
        const path = leastPath(rows, weights);
        expect(costOf(rows, weights, path)).toBeCloseTo(enumerate(rows, weights, grid), 2);
      }),
      { numRuns: 300 },
    );
  });

  it('and of equal paths takes the one that lies furthest out, from the last slice backwards', () => {
    // Rows that fall to a first step, wander on few values and then rise or stay level: most costs are met twice.
    const shape = fc.tuple(
      fc.integer({ min: 0, max: 40 }),
      fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 0, maxLength: 40 }),
      fc.integer({ min: 0, max: 1 }),
    );
    const row = shape.map(([fall, middle, rise]) =>
      Float64Array.from({ length: GRID_SIZE }, (_, step) => {
        if (step < fall) return 4 + fall - step;
        return middle[step - fall] ?? 4 + rise * (step - fall);
      }),
    );
    // A slice without fingers costs nothing anywhere.
    const rowOrNone = fc.oneof({ arbitrary: row, weight: 5 }, fc.constant(new Float64Array(GRID_SIZE)));
    const cases = fc.array(fc.tuple(rowOrNone, weight), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(cases, (all) => {
        const rows = all.map(([own]) => own);
        const weights = all.map(([, own]) => own);
        expect(leastPath(rows, weights)).toEqual(plainPath(rows, weights));
      }),
      { numRuns: 200 },
    );
  });

  it('against a plain quadratic search of the whole grid, for real fingers and keys', () => {
    const hand = handModel();
    const tips = new TipTable(hand);
    fc.assert(
      fc.property(steps(12), (all) => {
        const { line, fingers } = lineOf('right', all);
        const uses = fingersInUse(line, fingers);
        const rows = uses.map((use) =>
          Float64Array.from({ length: GRID_SIZE }, (_, step) =>
            use.reduce(
              (sum, { finger, key }) => sum + tips.at(finger, key, step + LEAST_DEPTH).discomfort,
              0,
            ),
          ),
        );
        const weights = line.slices.map((s) => travelWeight(s.seconds, isFree(s.free, s.phraseStart)));
        let costs = [...rows[0]!];
        for (let at = 1; at < rows.length; at++) {
          costs = costs.map(
            (_, step) =>
              rows[at]![step]! +
              Math.min(...costs.map((cost, origin) => cost + travelCost(step - origin, weights[at]!))),
          );
        }
        const path = planDepth(line, uses, tips).map((depth) => depth - LEAST_DEPTH);
        // Rounding to the grain leaves less than 0.01 mm over a dozen slices.
        expect(costOf(rows, weights, path)).toBeCloseTo(Math.min(...costs), 2);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the depth plan is invariant', () => {
  const tips = new TipTable(handModel());
  const depths = ({ line, fingers }: ReturnType<typeof lineOf>) =>
    planDepth(line, fingersInUse(line, fingers), tips);

  it('under transposition by octaves', () => {
    fc.assert(
      fc.property(steps(20), fc.constantFrom(-12, 12, 24), (all, shift) => {
        const moved = all.map((step) => ({ ...step, keys: step.keys.map((key) => key + shift) }));
        expect(depths(lineOf('right', moved))).toEqual(depths(lineOf('right', all)));
      }),
    );
  });

  it('under the mirror about D with the hands swapped', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        expect(depths(lineOf('left', mirrored(all)))).toEqual(depths(lineOf('right', all)));
      }),
    );
  });

  it('under scaling of time where the weights stay the same', () => {
    fc.assert(
      fc.property(steps(20), fc.integer({ min: 2, max: 9 }), (all, factor) => {
        // Beyond about 1.4 s the weight has reached its least value.
        const slow = all.map((step) => ({ ...step, seconds: 2, free: 0 }));
        const slower = slow.map((step) => ({ ...step, seconds: 2 * factor }));
        expect(depths(lineOf('right', slower))).toEqual(depths(lineOf('right', slow)));
      }),
    );
  });

  it('and stays on its grid', () => {
    fc.assert(
      fc.property(steps(20), (all) => {
        for (const depth of depths(lineOf('right', all))) {
          expect(Number.isInteger(depth)).toBe(true);
          expect(depth).toBeGreaterThanOrEqual(LEAST_DEPTH);
          expect(depth).toBeLessThanOrEqual(GREATEST_DEPTH);
        }
      }),
    );
  });
});

describe('travel', () => {
  it('grows dearer with speed and cheap in free time', () => {
    const paces = [0.05, 0.1, 0.2, 0.4, 0.8].map((seconds) => travelWeight(seconds, false));
    expect(paces).toEqual([...paces].sort((a, b) => b - a));
    for (const cheap of [isFree(0.2, false), isFree(0, true)])
      expect(travelWeight(0.4, cheap)).toBeLessThan(travelWeight(0.4, isFree(0, false)));
  });

  it('never grows with the tempo in a G major scale: 1.0 s to 0.05 s a note', () => {
    const keys = [55, 57, 59, 60, 62, 64, 66, 67, 66, 64, 62, 60, 59, 57, 55];
    const digits = [1, 2, 3, 1, 2, 3, 4, 5, 4, 3, 2, 1, 3, 2, 1] as const;
    const travels = [1, 0.5, 0.25, 0.15, 0.1, 0.05].map((seconds) => {
      const plan = depths1(keys, digits, seconds);
      return plan.reduce((sum, depth, at) => sum + (at > 0 ? Math.abs(depth - plan[at - 1]!) : 0), 0);
    });
    console.log(`G major up and down, mm of depth travel as the notes quicken: ${travels.join(', ')}`);
    expect(travels).toEqual([...travels].sort((a, b) => b - a));
    expect(travels.at(-1)).toBeLessThan(travels[0]!);
  });

  function depths1(keys: readonly number[], digits: readonly (1 | 2 | 3 | 4 | 5)[], seconds: number) {
    const given = lineOf(
      'right',
      keys.map((key, at) => ({ keys: [key], fingers: [digits[at]!] })),
      seconds,
    );
    return planDepth(given.line, fingersInUse(given.line, given.fingers), new TipTable(handModel()));
  }
});
