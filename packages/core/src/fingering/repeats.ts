import type { Flow, Join } from '../hands/flow.js';
import type { Finger } from '../score/model.js';
import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import { type Choice, leastChoice } from './search.js';
import type { Extra, Further, Stages } from './stages.js';
import { paceOf, type SliceView } from './view.js';

/** Rounds of settling both ends of all joins; most lines need one. */
const ROUNDS = 3;
/** Seconds without a key that let the hand move freely: as in `view.ts`. */
const FREE_SECONDS = 0.15;

/** A choice, and the joins' costs under which it is the least. */
export interface JoinedChoice {
  readonly choice: Choice;
  readonly stages: Stages;
}

/**
 * Repeats, voltas and jumps: every note is printed and fingered once, so that the last slice before a join and the first
 * after it must suit each other as well as their neighbours in print. The cost of the whole is that of the printed line
 * plus, once for every join, the step, the chains and the move in depth across it. It is minimised by turns: exactly over
 * everything but the joins' first slices, which stay, then over everything but their last ones, until nothing changes.
 * No turn raises the cost. The line is never unfolded: a round takes two searches, whatever is repeated how often.
 */
export function settleJoins(
  start: Choice,
  stagesWith: (further: readonly Further[]) => Stages,
  { joins }: Flow,
  costs: CostTable,
  grid: DepthGrid,
): JoinedChoice {
  let best: JoinedChoice = { choice: start, stages: stagesWith([]) };
  if (joins.length === 0) return best;
  let cost = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 2 * ROUNDS; turn++) {
    const side = turn % 2 === 0 ? 'from' : 'to';
    const stages = stagesWith([joinCosts(best.stages.views, joins, best.choice, side, costs, grid)]);
    const choice = leastChoice(stages);
    const settled = turn > 0 && !(choice.cost < cost - 1e-9);
    if (settled) break;
    best = { choice, stages };
    cost = choice.cost;
  }
  return best;
}

/** The slice after a join as it is reached from there. */
export function joinedView(view: SliceView, { seconds, free }: Join): SliceView {
  const fresh = view.slice.phraseStart || free >= FREE_SECONDS;
  return { ...view, seconds, free, pace: paceOf(seconds), fresh, cut: false };
}

/** Costs across all joins with one side free, `side`, and the other as chosen; the chosen side stays where it is. */
export function joinCosts(
  views: readonly SliceView[],
  joins: readonly Join[],
  { path, depths }: Choice,
  side: 'from' | 'to',
  costs: CostTable,
  grid: DepthGrid,
): Further {
  const table = new Extras(views);
  const fingersOf = (at: number, candidate = path[at]!): readonly Finger[] =>
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
      table.fix(to, path[to]!, depths[to]!);
      if (after) table.fix(to + 1, path[to + 1]!);
      table.own(from, (candidate, depth) => {
        const across = step(candidate, path[to]!) + (after ? follow(candidate, path[to]!, path[to + 1]!) : 0);
        return across + kernel[depth * DEPTH_COUNT + depths[to]!]!;
      });
      if (before) table.steps(from, (a, b) => lead(a, b, path[to]!));
    } else {
      table.fix(from, path[from]!, depths[from]!);
      if (before) table.fix(from - 1, path[from - 1]!);
      table.own(to, (candidate, depth) => {
        const across =
          step(path[from]!, candidate) + (before ? lead(path[from - 1]!, path[from]!, candidate) : 0);
        return across + kernel[depths[from]! * DEPTH_COUNT + depth]!;
      });
      if (after) table.steps(to + 1, (c, d) => follow(path[from]!, c, d));
    }
  }
  return { name: 'repeat', extras: table.extras };
}

/** Extra costs, summed over joins that share slices. */
class Extras {
  readonly extras = new Map<number, { own?: Float64Array; steps?: Float64Array } & Extra>();

  constructor(private readonly views: readonly SliceView[]) {}

  own(at: number, cost: (candidate: number, depth: number) => number): void {
    const extra = this.#at(at);
    extra.own ??= new Float64Array(this.#count(at) * DEPTH_COUNT);
    for (let candidate = 0; candidate < this.#count(at); candidate++) {
      for (let depth = 0; depth < DEPTH_COUNT; depth++) {
        extra.own[candidate * DEPTH_COUNT + depth]! += cost(candidate, depth);
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

  /** Forbids all but one candidate, and all but one depth where one is given. */
  fix(at: number, candidate: number, depth?: number): void {
    this.own(at, (other, level) =>
      other === candidate && (depth === undefined || level === depth) ? 0 : Number.POSITIVE_INFINITY,
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
