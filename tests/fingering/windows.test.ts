import fc from 'fast-check';
import { expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { Windows } from '#core/fingering/consistency/windows.js';
import { DEPTH_COUNT } from '#core/fingering/cost/depth.js';
import type { Objective } from '#core/fingering/cost/objective.js';
import { Search } from '#core/fingering/search/forward.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Hand } from '#core/score/model.js';
import { rounds } from '../rounds.js';
import { objectiveOf } from './enumerate.js';
import { happenings, lineOf } from './lines.js';

const model = handModel();
/** Slices around a changed one whose depths may change with it. */
const MARGIN = 2;

/** What the fingers of a slice cost, and the steps and chains into it. */
function fingersCost(objective: Objective, path: readonly number[], at: number): number {
  if (at === 0) return 0;
  const [before, here] = [path[at - 1]!, path[at]!];
  const step = objective.steps(at)[before * objective.count(at) + here]!;
  const first = at > 1 ? path[at - 2]! * objective.count(at - 1) : 0;
  return step + objective.chains(at)[(first + before) * objective.count(at) + here]!;
}

/** What a slice costs at a depth, and the way there from the depth before. */
function depthCost(
  objective: Objective,
  path: readonly number[],
  at: number,
  from: number,
  to: number,
): number {
  const own = objective.own(at)[objective.ownStart(at) + path[at]! * DEPTH_COUNT + to]!;
  return at === 0 ? own : own + objective.kernel(at)[from * DEPTH_COUNT + to]!;
}

/** The whole cost of a fingering at given depths. */
function total(objective: Objective, path: readonly number[], depths: readonly number[]): number {
  return path.reduce(
    (sum, _, at) =>
      sum + fingersCost(objective, path, at) + depthCost(objective, path, at, depths[at - 1]!, depths[at]!),
    0,
  );
}

/** The least whole cost, every way to set the depths from `from` to `to` tried in turn. */
function leastByTrying(
  objective: Objective,
  path: readonly number[],
  depths: readonly number[],
  from: number,
  to: number,
): number {
  let least = Number.POSITIVE_INFINITY;
  const tried = [...depths];
  const beyond = (sum: number): number =>
    to + 1 < path.length ? sum + depthCost(objective, path, to + 1, tried[to]!, depths[to + 1]!) : sum;
  const set = (at: number, sum: number): void => {
    if (at > to) {
      least = Math.min(least, beyond(sum));
      return;
    }
    for (let depth = 0; depth < DEPTH_COUNT; depth++) {
      tried[at] = depth;
      set(at + 1, sum + depthCost(objective, path, at, tried[at - 1]!, depth));
    }
  };
  set(from, 0);
  const fixed = path.reduce((sum, _, at) => {
    const isFree = at >= from && at <= to + 1;
    const own = isFree ? 0 : depthCost(objective, path, at, depths[at - 1]!, depths[at]!);
    return sum + fingersCost(objective, path, at) + own;
  }, 0);
  return fixed + least;
}

const LINE = happenings({ keys: 2, holds: 1, ambit: 14 }, 12, 14);

it('what a change costs in its window is what it costs in all, with the best depths there, every one tried', () => {
  fc.assert(
    fc.property(
      fc.constantFrom<Hand>('right', 'left'),
      LINE,
      fc.nat(13),
      fc.nat(9),
      (hand, events, place, other) => {
        const views = viewLine(lineOf(hand, events), model, true);
        const objective = objectiveOf(views, model);
        const { path, depths } = new Search().find(objective);
        const at = place % views.length;
        const next = [...path];
        next[at] = other % objective.count(at);
        const windows = new Windows(objective, [...depths]);
        windows.around([at]);
        const [from, to] = [Math.max(0, at - MARGIN), Math.min(views.length - 1, at + MARGIN)];
        const least = leastByTrying(objective, next, depths, from, to);
        expect(windows.cost(next) - windows.cost(path)).toBeCloseTo(
          least - total(objective, path, depths),
          6,
        );
        windows.cost(next);
        windows.settle();
        expect(total(objective, next, windows.depths)).toBeCloseTo(least, 6);
        const outside = (_: number, nth: number) => nth < from || nth > to;
        expect(windows.depths.filter(outside)).toEqual(depths.filter(outside));
      },
    ),
    rounds(20, 100),
  );
});

it('windows that touch are one, and those apart count each for itself', () => {
  fc.assert(
    fc.property(LINE, fc.nat(9), (events, other) => {
      const views = viewLine(lineOf('right', events), model, true);
      const objective = objectiveOf(views, model);
      const { path, depths } = new Search().find(objective);
      const change = (...places: number[]) => {
        const next = [...path];
        for (const at of places) next[at] = other % objective.count(at);
        const windows = new Windows(objective, [...depths]);
        windows.around(places);
        const more = windows.cost(next) - windows.cost(path);
        windows.cost(next);
        windows.settle();
        return { more, whole: total(objective, next, windows.depths) - total(objective, path, depths) };
      };
      const last = views.length - 1;
      for (const { more, whole } of [
        change(2, 4),
        change(1, 6),
        change(0, last),
        change(0, 1, last - 1, last),
      ])
        expect(more).toBeCloseTo(whole, 6);
      // Ten slices apart they share nothing.
      expect(change(0, last).more).toBeCloseTo(change(0).more + change(last).more, 6);
    }),
    rounds(20, 100),
  );
});
