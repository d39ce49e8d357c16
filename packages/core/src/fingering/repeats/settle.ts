import type { Flow, Join } from '../../hands/joins.js';
import type { Choice } from '../cost/choice.js';
import { DEPTH_COUNT, type DepthGrid } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';
import type { CostTable } from '../cost/slice-costs.js';
import { Search } from '../search/forward.js';
import { ExtraCostBuilder } from './extra-cost-builder.js';
import { JoinCosts, type JoinEnd } from './join-costs.js';

/** Rounds of settling both ends of all joins; most lines need one. */
const ROUNDS = 3;
/** Slices on either side of a join's ends that may change for its sake. */
const WINDOW = 12;
/** Slices outside a window that its costs look at. */
const CONTEXT = 2;
const AROUND = WINDOW + CONTEXT;

/** A choice, and the objective that includes what it pays at the joins. */
export interface JoinedChoice {
  readonly choice: Choice;
  readonly objective: Objective;
  /** The same with the joins' other ends held. */
  readonly otherObjective?: () => Objective;
}

/**
 * Repeats, voltas and jumps: every note is printed and fingered once, so that the last slice before a join and the first
 * after it must suit each other as well as their neighbours in print. The cost of the whole is that of the printed line
 * plus, once for every join, the step, the chains and the move in depth across it. It is minimised by turns: first around
 * the slices before the joins while the slices after them are held, then the other way round, until nothing changes. Each
 * turn searches windows around those slices exactly, and none raises the cost. The line is never unfolded: a turn
 * searches a window once, however often it is repeated.
 *
 * @param plain the printed line's objective, of which `start` is the least choice
 */
export function settleJoins(
  start: Choice,
  plain: Objective,
  { joins }: Flow,
  costs: CostTable,
  grid: DepthGrid,
): JoinedChoice {
  if (joins.length === 0) return { choice: start, objective: plain };
  const { views, bias } = plain;
  const joinCosts = new JoinCosts(costs, grid);
  const search = new Search();
  const path = [...start.path];
  const depths = [...start.depths];
  const current = { path, depths };
  const extraCostsFor = (freeEnd: JoinEnd): ExtraCostBuilder => {
    const extraCosts = new ExtraCostBuilder(views, current);
    for (const join of joins) joinCosts.add(extraCosts, join, freeEnd);
    return extraCosts;
  };
  const objectiveWith = ({ slices }: ExtraCostBuilder): Objective =>
    plain.with(bias, [...plain.extraCosts, { name: 'repeat', slices }]);
  let cost = start.cost;
  let settled: JoinEnd = 'from';
  let changed: number[] = [];
  for (let turn = 0; turn < 2 * ROUNDS; turn++) {
    const freeEnd: JoinEnd = turn % 2 === 0 ? 'from' : 'to';
    // Once both sides had their turn, a window has another minimum only where something changed in the last one.
    const due = turn < 2 ? joins : joins.filter((join) => isNear(join, changed));
    const ends = due.map((join) => join[freeEnd]);
    const extraCosts = extraCostsFor(freeEnd);
    if (turn === 0) cost += extraCosts.paid();
    const windows = windowsAround(ends, views.length);
    for (const window of windows) holdContext(extraCosts, window);
    const objective = objectiveWith(extraCosts);
    changed = [];
    for (const window of windows) cost -= settleWindow(search, objective, window, current, changed);
    if (changed.length > 0) settled = freeEnd;
    else if (turn > 0) break;
  }
  const biased = new Array<number>(path.length);
  for (let at = 0; at < path.length; at++) biased[at] = bias?.[at]?.[path[at]!] ?? 0;
  return {
    choice: { path, depths, biased, cost },
    objective: objectiveWith(extraCostsFor(settled)),
    otherObjective: () => objectiveWith(extraCostsFor(settled === 'from' ? 'to' : 'from')),
  };
}

/** True where one of the slices lies in a window around either end of a join. */
function isNear({ from, to }: Join, slices: readonly number[]): boolean {
  return slices.some((at) => Math.abs(at - from) <= AROUND || Math.abs(at - to) <= AROUND);
}

/** Slices from `start` up to, but not including, `end`. */
type Window = readonly [start: number, end: number];

/** Windows around slices, with their context; those that touch are merged. */
function windowsAround(slices: readonly number[], count: number): readonly Window[] {
  const merged: Window[] = [];
  for (const at of slices.toSorted((a, b) => a - b)) {
    const start = Math.max(0, at - AROUND);
    const end = Math.min(count, at + AROUND + 1);
    const last = merged.at(-1);
    if (last && start <= last[1]) merged[merged.length - 1] = [last[0], Math.max(last[1], end)];
    else merged.push([start, end]);
  }
  return merged;
}

/** Holds the slices at a window's edges, so that what lies beyond keeps its cost. */
function holdContext(extraCosts: ExtraCostBuilder, [start, end]: Window): void {
  const { length } = extraCosts.views;
  for (let nth = 0; nth < CONTEXT; nth++) {
    if (start > 0) extraCosts.hold(start + nth);
    if (end < length) extraCosts.hold(end - 1 - nth);
  }
}

/**
 * Replaces the choice in a window by the least one, where that saves anything.
 *
 * @param changed gets the slices that change
 * @returns the cost saved, mm equivalents
 */
function settleWindow(
  search: Search,
  objective: Objective,
  [start, end]: Window,
  { path, depths }: { readonly path: number[]; readonly depths: number[] },
  changed: number[],
): number {
  const section = objective.section(start, end);
  const found = search.find(section);
  const saved = costOf(section, path.slice(start, end), depths.slice(start, end)) - found.cost;
  if (saved <= 0) return 0;
  for (let nth = 0; nth < found.path.length; nth++) {
    const candidate = found.path[nth]!;
    const depth = found.depths[nth]!;
    if (candidate === path[start + nth] && depth === depths[start + nth]) continue;
    path[start + nth] = candidate;
    depths[start + nth] = depth;
    changed.push(start + nth);
  }
  return saved;
}

/** Cost of a choice under its objective. */
export function costOf(objective: Objective, path: readonly number[], depths: readonly number[]): number {
  let cost = 0;
  for (let at = 0; at < path.length; at++) {
    const candidate = path[at]!;
    const depth = depths[at]!;
    cost += objective.own(at)[objective.ownStart(at) + candidate * DEPTH_COUNT + depth]!;
    cost += objective.bias?.[at]?.[candidate] ?? 0;
    if (at === 0) continue;
    const pair = path[at - 1]! * objective.count(at) + candidate;
    cost += objective.steps(at)[pair]! + objective.kernel(at)[depths[at - 1]! * DEPTH_COUNT + depth]!;
    if (at > 1)
      cost += objective.chains(at)[path[at - 2]! * objective.count(at - 1) * objective.count(at) + pair]!;
  }
  return cost;
}
