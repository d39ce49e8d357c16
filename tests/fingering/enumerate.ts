import type { HandModel } from '#core/anatomy/hand.js';
import { DEPTH_COUNT, DEPTH_WEIGHT, DepthGrid } from '#core/fingering/cost/depth.js';
import { LineCosts } from '#core/fingering/cost/line-costs.js';
import { type Bias, Objective } from '#core/fingering/cost/objective.js';
import { CostTable, heldCost } from '#core/fingering/cost/slice-costs.js';
import { WEIGHTS } from '#core/fingering/cost/weights.js';
import { surroundingsOf } from '#core/fingering/view/surroundings.js';
import type { SliceView } from '#core/fingering/view/view.js';
import type { Finger } from '#core/score/model.js';

/** Costs of a line by slice and candidate, asked one by one from the terms, never through the search's own tables. */
export class Ledger {
  readonly #costs: CostTable;
  readonly #grid: DepthGrid;
  readonly #surroundings;

  constructor(
    readonly views: readonly SliceView[],
    hand: HandModel,
    private readonly bias?: Bias,
  ) {
    this.#costs = new CostTable(hand, WEIGHTS.usage);
    this.#grid = new DepthGrid(hand, DEPTH_WEIGHT);
    this.#surroundings = surroundingsOf(views);
  }

  fingers(at: number, candidate: number): readonly Finger[] {
    return this.views[at]!.candidates[candidate]!.fingers;
  }

  /** What slice `at` adds to a path, depth left out. */
  added(path: readonly number[], at: number): number {
    const view = this.views[at]!;
    const to = this.fingers(at, path[at]!);
    let cost = this.#costs.slice(view, to, this.#surroundings[at]!) + (this.bias?.[at]?.[path[at]!] ?? 0);
    if (at >= 1 && !view.cut) {
      const [before, from] = [this.views[at - 1]!, this.fingers(at - 1, path[at - 1]!)];
      const [last, here] = [[{ fingers: from }], [{ fingers: to }]];
      cost += this.#costs.pairs(before, view, last, here)[0]! + heldCost(before, view, from, to);
      if (at >= 2 && !before.cut) {
        const first = [{ fingers: this.fingers(at - 2, path[at - 2]!) }];
        cost += this.#costs.triples(this.views[at - 2]!, before, view, first, last, here)[0]!;
      }
    }
    return cost;
  }

  discomfort(at: number, candidate: number): Float64Array {
    const row = new Float64Array(DEPTH_COUNT);
    this.#grid.addDiscomfort(this.views[at]!, this.fingers(at, candidate), row, 0);
    return row;
  }

  /** Cost of moving from one depth to another on the way to slice `at`. */
  move(at: number, from: number, to: number): number {
    const view = this.views[at]!;
    return view.cut ? 0 : this.#grid.kernel(view)[from * DEPTH_COUNT + to]!;
  }
}

/** The stated cost of a line as the search asks for it. */
export function objectiveOf(views: readonly SliceView[], hand: HandModel, bias?: Bias): Objective {
  const [costs, grid] = [new CostTable(hand, WEIGHTS.usage), new DepthGrid(hand, DEPTH_WEIGHT)];
  return new Objective(new LineCosts(views, surroundingsOf(views), costs, grid), bias);
}

/** Number of fingerings of a line. */
export function fingerings(views: readonly SliceView[]): number {
  return views.reduce((product, view) => product * view.candidates.length, 1);
}

/** Least cost over all fingerings and, for each, all sequences of depths, none of them merged. */
export function leastOfEverything(ledger: Ledger): number {
  const { views } = ledger;
  const path: number[] = [];
  let best = Number.POSITIVE_INFINITY;
  const walk = (sum: number, from: number): void => {
    const at = path.length;
    if (at === views.length) {
      best = Math.min(best, sum);
      return;
    }
    for (let candidate = 0; candidate < views[at]!.candidates.length; candidate++) {
      path.push(candidate);
      const row = ledger.discomfort(at, candidate);
      const reached = sum + ledger.added(path, at);
      for (let to = 0; to < DEPTH_COUNT; to++) {
        walk(reached + row[to]! + (at > 0 ? ledger.move(at, from, to) : 0), to);
      }
      path.pop();
    }
  };
  walk(0, 0);
  return best;
}

/** Least cost over all fingerings. */
export function leastOfFingerings(ledger: Ledger): number {
  let best = Number.POSITIVE_INFINITY;
  eachFingering(ledger, (cost) => {
    best = Math.min(best, cost);
  });
  return best;
}

/**
 * The cost of every fingering, each followed to its end; the best depths of each are found for that fingering alone,
 * slice by slice, so that only depths are ever merged.
 */
export function eachFingering(ledger: Ledger, tell: (cost: number, path: readonly number[]) => void): void {
  const { views } = ledger;
  const counts = views.map((view) => view.candidates.length);
  const added = views.map((_, at) => addedTable(ledger, counts, at));
  const rows = views.map((view, at) => view.candidates.map((_, nth) => ledger.discomfort(at, nth)));
  const moves = views.map((_, at) =>
    Float64Array.from({ length: DEPTH_COUNT ** 2 }, (__, cell) =>
      ledger.move(at, Math.floor(cell / DEPTH_COUNT), cell % DEPTH_COUNT),
    ),
  );
  const sums = views.map(() => new Float64Array(DEPTH_COUNT));
  const path = new Array<number>(views.length).fill(0);
  const walk = (at: number): void => {
    if (at === views.length) {
      tell(Math.min(...sums[at - 1]!), path);
      return;
    }
    const own = sums[at]!;
    for (let candidate = 0; candidate < counts[at]!; candidate++) {
      path[at] = candidate;
      const cost = added[at]![cellOf(path, counts, at)]!;
      for (let to = 0; to < DEPTH_COUNT; to++) {
        let least = at === 0 ? 0 : Number.POSITIVE_INFINITY;
        if (at > 0) {
          for (let from = 0; from < DEPTH_COUNT; from++) {
            const sum = sums[at - 1]![from]! + moves[at]![from * DEPTH_COUNT + to]!;
            if (sum < least) least = sum;
          }
        }
        own[to] = least + cost + rows[at]![candidate]![to]!;
      }
      walk(at + 1);
    }
  };
  walk(0);
}

function cellOf(path: readonly number[], counts: readonly number[], at: number): number {
  let cell = 0;
  for (let nth = Math.max(0, at - 2); nth <= at; nth++) cell = cell * counts[nth]! + path[nth]!;
  return cell;
}

/** `Ledger.added` for all choices of the last three slices. */
function addedTable(ledger: Ledger, counts: readonly number[], at: number): Float64Array {
  const from = Math.max(0, at - 2);
  const size = counts.slice(from, at + 1).reduce((product, count) => product * count, 1);
  const path = new Array<number>(at + 1).fill(0);
  return Float64Array.from({ length: size }, (_, cell) => {
    let rest = cell;
    for (let nth = at; nth >= from; nth--) {
      path[nth] = rest % counts[nth]!;
      rest = Math.floor(rest / counts[nth]!);
    }
    return ledger.added(path, at);
  });
}
