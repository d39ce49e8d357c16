import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { travelWeight } from '#core/anatomy/travel.js';
import { isFree } from '#core/hands/fresh-start.js';
import { planDepth } from '#core/motion/depth/depth.js';
import {
  armTravel,
  farthest,
  LEAST_SECONDS_TO_TURN,
  type Move,
  movesInto,
} from '#core/motion/depth/forearm.js';
import { leastPath } from '#core/motion/depth/search.js';
import { fingersInUse } from '#core/motion/fingers-in-use.js';
import { GREATEST_DEPTH, GRID_SIZE, LEAST_DEPTH, TipTable } from '#core/motion/tips.js';
import type { Hand } from '#core/score/model.js';
import { steps } from './arbitrary.js';
import { lineOf, melody, mirrored } from './lines.js';

const FORBIDDEN = 1e6;

/** The stated cost of a path: discomfort, travel and reversals. */
function costOf(rows: readonly Float64Array[], moves: readonly Move[], path: readonly number[]): number {
  let last = 0;
  return path.reduce((sum, step, at) => {
    const change = at === 0 ? 0 : step - path[at - 1]!;
    const turn = change * last < 0 ? moves[at]!.turn : 0;
    if (change !== 0) last = change;
    return sum + rows[at]![step]! + (at === 0 ? 0 : armTravel(change, moves[at]!.weight)) + turn;
  }, 0);
}

/** Whether the forearm can follow a path: how fast it goes, and how soon it turns after it has turned. */
function canFollow(moves: readonly Move[], path: readonly number[]): boolean {
  let time = 0;
  let turned = Number.NEGATIVE_INFINITY;
  let last = 0;
  for (let at = 1; at < path.length; at++) {
    const change = path[at]! - path[at - 1]!;
    if (Math.abs(change) > farthest(moves[at]!.seconds)) return false;
    if (change * last < 0) {
      if (time - turned < LEAST_SECONDS_TO_TURN - 1e-6) return false;
      turned = time;
    }
    if (change !== 0) last = change;
    time += moves[at]!.seconds;
  }
  return true;
}

/** Least cost by trying every path over the given grid steps. */
function enumerate(rows: readonly Float64Array[], moves: readonly Move[], grid: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  const walk = (path: number[]): void => {
    if (path.length === rows.length) {
      if (canFollow(moves, path)) least = Math.min(least, costOf(rows, moves, path));
      return;
    }
    for (const step of grid) walk([...path, step]);
  };
  walk([]);
  return least;
}

const weight = fc.constantFrom(0.015, 0.035, 0.06, 0.1);
const move = fc.record({
  seconds: fc.constantFrom(0.05, 0.1, 0.15, 0.25, 0.4),
  weight,
  turn: fc.constantFrom(0, 0.5, 2),
});

describe('the depth plan is exact', () => {
  it('against every path over a coarse grid that the forearm can follow', () => {
    const grid = [40, 44, 50, 57, 70];
    const row = fc.array(fc.integer({ min: 0, max: 24 }), { minLength: grid.length, maxLength: grid.length });
    const cases = fc.array(fc.tuple(row, move), { minLength: 1, maxLength: 6 });
    let bound = 0;
    fc.assert(
      fc.property(cases, (all) => {
        const rows = all.map(([costs]) => {
          const full = new Float64Array(GRID_SIZE).fill(FORBIDDEN);
          for (const [nth, cost] of costs.entries()) full[grid[nth]!] = cost / 4;
          return full;
        });
        const moves = all.map(([, own]) => own);
        const path = leastPath(rows, moves);
        const least = enumerate(rows, moves, grid);
        expect(canFollow(moves, path)).toBe(true);
        expect(costOf(rows, moves, path)).toBeCloseTo(least, 2);
        const slow = moves.map((own) => ({ ...own, seconds: 2 }));
        if (enumerate(rows, slow, grid) < least) bound++;
      }),
      { numRuns: 300 },
    );
    // The limits matter in many of the cases.
    expect(bound).toBeGreaterThan(30);
  });

  it('against a plain search of the whole grid, for real fingers and keys and a forearm that has time', () => {
    const hand = handModel();
    const tips = new TipTable(hand);
    fc.assert(
      fc.property(steps(12), (all) => {
        const slow = all.map((own) => ({ ...own, seconds: 1 + (own.seconds ?? 0) }));
        const { line, fingers } = lineOf('right', slow);
        const uses = fingersInUse(line, fingers);
        const rows = uses.map((use) =>
          Float64Array.from({ length: GRID_SIZE }, (_, step) =>
            use.reduce(
              (sum, { finger, key }) => sum + tips.at(finger, key, step + LEAST_DEPTH).discomfort,
              0,
            ),
          ),
        );
        const moves = movesInto(line.slices);
        let costs = [...rows[0]!];
        for (let at = 1; at < rows.length; at++) {
          costs = costs.map(
            (_, step) =>
              rows[at]![step]! +
              Math.min(...costs.map((cost, origin) => cost + armTravel(step - origin, moves[at]!.weight))),
          );
        }
        const path = planDepth(line, uses, tips).map((depth) => depth - LEAST_DEPTH);
        // Rounding to the grain leaves less than 0.01 mm over a dozen slices.
        expect(costOf(rows, moves, path)).toBeCloseTo(Math.min(...costs), 2);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the forearm is a mass', () => {
  const tips = new TipTable(handModel());
  const changes = (keys: readonly number[], digits: string, seconds: number, hand: Hand = 'right') => {
    const given = melody(hand, keys, digits, seconds);
    const plan = planDepth(given.line, fingersInUse(given.line, given.fingers), tips);
    return plan.map((depth, at) => (at > 0 ? depth - plan[at - 1]! : 0)).filter((change) => change !== 0);
  };
  const figure = (keys: readonly number[], digits: string, times: number) =>
    [new Array(times).fill(keys).flat() as number[], digits.repeat(times)] as const;

  it.each([
    ['a trill of F sharp and G', [66, 67], '23'],
    ['an Alberti bass round F sharp', [62, 69, 66, 69], '1525'],
    ['a broken octave from white to black', [54, 66], '15'],
    ['a tremolo of a sixth', [61, 70], '15'],
  ] as const)('settles in %s of quick notes and may follow slow ones', (_, keys, digits) => {
    const [all, fingers] = figure(keys, digits, 24 / keys.length);
    const [slow, quick] = [1, 0.1].map((seconds) => changes(all, fingers, seconds));
    console.log(
      `${digits}, mm of travel: ${slow!.join(' ')} in slow notes, ${quick!.join(' ')} in quick ones`,
    );
    // One move at most, to where the figure ends.
    expect(quick!.every((change) => change * quick![0]! > 0)).toBe(true);
    expect(Math.abs(quick!.reduce((sum, change) => sum + change, 0))).toBeLessThan(25);
  });

  it.each(['5232', '5121'])('settles in %s on E flat from two notes a second on', (digits) => {
    const [keys, fingers] = figure([51, 58, 55, 58], digits, 8);
    const [slow, ...quick] = [1, 0.5, 0.15, 0.1].map((seconds) =>
      changes(keys, fingers, seconds, 'left').reduce((sum, change) => sum + Math.abs(change), 0),
    );
    console.log(
      `${digits} on E flat, mm of travel: ${slow} in slow notes, ${quick.join(', ')} in quick ones`,
    );
    // 2 on G and 3 on E flat ask for two depths; 1 and 2 play their keys from one.
    if (digits === '5232') expect(slow).toBeGreaterThan(300);
    else expect(slow).toBeLessThan(25);
    // Nothing but the way to where it settles and on to where it ends.
    for (const travel of quick) expect(travel).toBeLessThan(25);
  });

  it('follows any line within its limits', () => {
    fc.assert(
      fc.property(steps(24), (all) => {
        const { line, fingers } = lineOf('right', all);
        const plan = planDepth(line, fingersInUse(line, fingers), tips);
        expect(canFollow(movesInto(line.slices), plan)).toBe(true);
      }),
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
