import { FREE_SECONDS } from '../hands/anew.js';
import type { Flow, Join } from '../hands/flow.js';
import type { Finger } from '../score/model.js';
import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import { type Choice, leastChoice } from './search.js';
import type { Stages } from './stages.js';
import { paceOf, type SliceView } from './view.js';

/** Rounds of settling both ends of all joins; most lines need one. */
const ROUNDS = 3;
/** Slices on either side of a join's ends that may change for its sake. */
const WINDOW = 12;
/** Slices outside a window that its costs look at. */
const CONTEXT = 2;

/** A choice, and the stages with the joins' costs that it pays. */
export interface JoinedChoice {
  readonly choice: Choice;
  readonly stages: Stages;
}

/**
 * Repeats, voltas and jumps: every note is printed and fingered once, so that the last slice before a join and the first
 * after it must suit each other as well as their neighbours in print. The cost of the whole is that of the printed line
 * plus, once for every join, the step, the chains and the move in depth across it. It is minimised by turns, exactly over
 * the windows around all ends of joins with the joins' first slices held, then with their last ones held, until nothing
 * changes; no turn raises it. The line is never unfolded: a turn searches the windows once, whatever is repeated how
 * often.
 *
 * @param plain the printed line's stages, of which `start` is the least choice
 */
export function settleJoins(
  start: Choice,
  plain: Stages,
  { joins }: Flow,
  costs: CostTable,
  grid: DepthGrid,
): JoinedChoice {
  const { views, bias } = plain;
  const stagesWith = ({ extras }: Extras): Stages =>
    plain.with(bias, [...plain.further, { name: 'repeat', extras }]);
  if (joins.length === 0) return { choice: start, stages: plain };
  const windows = windowsAround(joins, views.length);
  const search = (choice: Choice, side: Side): Choice => {
    const table = new Extras(views, choice);
    addJoins(table, joins, side, costs, grid);
    for (const window of windows) holdContext(table, window);
    return searchWindows(stagesWith(table), windows, choice);
  };
  let side: Side = 'from';
  let best = search(start, side);
  for (let turn = 1; turn < 2 * ROUNDS; turn++) {
    const other: Side = side === 'from' ? 'to' : 'from';
    const next = search(best, other);
    if (next.cost >= best.cost) break;
    [best, side] = [next, other];
  }
  const table = new Extras(views, best);
  addJoins(table, joins, side, costs, grid);
  const stages = stagesWith(table);
  const biased = best.path.map((candidate, at) => bias?.[at]?.[candidate] ?? 0);
  return { choice: { ...best, biased, cost: costOf(stages, best) }, stages };
}

/** From the first slice up to, but without, the last. */
type Window = readonly [start: number, end: number];

/** The neighbourhoods of all ends of joins, with their context; those that touch are one. */
function windowsAround(joins: readonly Join[], count: number): readonly Window[] {
  const way = WINDOW + CONTEXT;
  const all = joins
    .flatMap(({ from, to }) => [from, to])
    .sort((a, b) => a - b)
    .map((at): Window => [Math.max(0, at - way), Math.min(count, at + way + 1)]);
  const merged: Window[] = [];
  for (const [start, end] of all) {
    const last = merged.at(-1);
    if (last && start <= last[1]) merged[merged.length - 1] = [last[0], Math.max(last[1], end)];
    else merged.push([start, end]);
  }
  return merged;
}

/** The slices at a window's edges stay as they are, so that what lies beyond keeps its cost. */
function holdContext(table: Extras, [start, end]: Window): void {
  const { length } = table.views;
  for (let nth = 0; nth < CONTEXT; nth++) {
    if (start > 0) table.fix(start + nth, true);
    if (end < length) table.fix(end - 1 - nth, true);
  }
}

/** The least choice in every window, the rest as it is; its cost is that of the windows alone. */
function searchWindows(stages: Stages, windows: readonly Window[], choice: Choice): Choice {
  const [path, depths] = [[...choice.path], [...choice.depths]];
  let cost = 0;
  for (const [start, end] of windows) {
    const found = leastChoice(stages.section(start, end));
    found.path.forEach((candidate, nth) => {
      path[start + nth] = candidate;
      depths[start + nth] = found.depths[nth]!;
    });
    cost += found.cost;
  }
  return { ...choice, path, depths, cost };
}

/** Cost of a choice under its stages. */
function costOf(stages: Stages, { path, depths }: Choice): number {
  let cost = 0;
  path.forEach((candidate, at) => {
    cost += stages.own(at)[candidate * DEPTH_COUNT + depths[at]!]!;
    if (at > 0) {
      const pair = path[at - 1]! * stages.count(at) + candidate;
      cost += stages.steps(at)[pair]! + stages.kernel(at)[depths[at - 1]! * DEPTH_COUNT + depths[at]!]!;
      if (at > 1) cost += stages.chains(at)[path[at - 2]! * stages.count(at - 1) * stages.count(at) + pair]!;
    }
  });
  return cost;
}

/** The slice after a join as it is reached from there. */
export function joinedView(view: SliceView, { seconds, free }: Join): SliceView {
  const fresh = view.slice.phraseStart || free >= FREE_SECONDS;
  return { ...view, seconds, free, pace: paceOf(seconds), fresh, cut: false };
}

type Side = 'from' | 'to';

/** Costs across all joins with one side free and the other held as chosen. */
function addJoins(
  table: Extras,
  joins: readonly Join[],
  side: Side,
  costs: CostTable,
  grid: DepthGrid,
): void {
  const { views } = table;
  const { path, depths } = table.choice;
  const fingersOf = (at: number, candidate: number): readonly Finger[] =>
    views[at]!.candidates[candidate]!.fingers;
  for (const join of joins) {
    const { from, to } = join;
    const [here, there] = [views[from]!, joinedView(views[to]!, join)];
    const before = from > 0 && !here.cut ? views[from - 1] : undefined;
    const after = views[to + 1] && !views[to + 1]!.cut ? views[to + 1] : undefined;
    const kernel = grid.kernel(there);
    const lead = (a: number, b: number, c: number) =>
      before
        ? costs.triple(before, here, there, fingersOf(from - 1, a), fingersOf(from, b), fingersOf(to, c))
        : 0;
    const follow = (b: number, c: number, d: number) =>
      after
        ? costs.triple(here, there, after, fingersOf(from, b), fingersOf(to, c), fingersOf(to + 1, d))
        : 0;
    const step = (b: number, c: number) => costs.pair(here, there, fingersOf(from, b), fingersOf(to, c));
    if (side === 'from') {
      table.fix(to, true);
      if (after) table.fix(to + 1, false);
      table.own(from, (candidate) => {
        const across = step(candidate, path[to]!) + (after ? follow(candidate, path[to]!, path[to + 1]!) : 0);
        return (depth) => across + kernel[depth * DEPTH_COUNT + depths[to]!]!;
      });
      if (before) table.steps(from, (a, b) => lead(a, b, path[to]!));
    } else {
      table.fix(from, true);
      if (before) table.fix(from - 1, false);
      table.own(to, (candidate) => {
        const across =
          step(path[from]!, candidate) + (before ? lead(path[from - 1]!, path[from]!, candidate) : 0);
        return (depth) => across + kernel[depths[from]! * DEPTH_COUNT + depth]!;
      });
      if (after) table.steps(to + 1, (c, d) => follow(path[from]!, c, d));
    }
  }
}

/** Extra costs, summed over joins that share slices. */
class Extras {
  readonly extras = new Map<number, { own?: Float64Array; steps?: Float64Array }>();

  constructor(
    readonly views: readonly SliceView[],
    readonly choice: Choice,
  ) {}

  own(at: number, costOf: (candidate: number) => (depth: number) => number): void {
    const extra = this.#at(at);
    extra.own ??= new Float64Array(this.#count(at) * DEPTH_COUNT);
    for (let candidate = 0; candidate < this.#count(at); candidate++) {
      const cost = costOf(candidate);
      for (let depth = 0; depth < DEPTH_COUNT; depth++) {
        extra.own[candidate * DEPTH_COUNT + depth]! += cost(depth);
      }
    }
  }

  steps(at: number, cost: (before: number, candidate: number) => number): void {
    const extra = this.#at(at);
    extra.steps ??= new Float64Array(this.#count(at - 1) * this.#count(at));
    for (let a = 0; a < this.#count(at - 1); a++) {
      for (let b = 0; b < this.#count(at); b++) extra.steps[a * this.#count(at) + b]! += cost(a, b);
    }
  }

  /** Forbids all but the chosen candidate, and all but the chosen depth where that is held too. */
  fix(at: number, depthToo: boolean): void {
    const { path, depths } = this.choice;
    this.own(
      at,
      (candidate) => (depth) =>
        candidate === path[at] && (!depthToo || depth === depths[at]) ? 0 : Number.POSITIVE_INFINITY,
    );
  }

  #at(at: number): { own?: Float64Array; steps?: Float64Array } {
    const extra = this.extras.get(at) ?? {};
    this.extras.set(at, extra);
    return extra;
  }

  #count(at: number): number {
    return this.views[at]!.candidates.length;
  }
}
