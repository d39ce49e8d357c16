import { travelCost, travelWeight } from '../anatomy/travel.js';
import type { Line } from '../hands/line.js';
import { GRID_SIZE, LEAST_DEPTH, TipTable } from './tips.js';
import type { Use } from './use.js';

const SIZE = GRID_SIZE;
/**
 * Costs are multiples of this, so that their sums are exact in binary, equal plans cost exactly the same and the
 * rounded travel cost stays convex.
 */
const GRAIN = 2 ** -16;

const grained = (cost: number): number => Math.round(cost / GRAIN) * GRAIN;

/** `TRAVEL[k]`: cost of moving by k mm at weight 1. */
const TRAVEL = Float64Array.from({ length: SIZE }, (_, mm) => travelCost(mm, 1));

/**
 * Forearm depth of every slice in whole mm: the exact minimum over the whole line of fingertip discomfort (all fingers
 * in use, held ones included) plus forearm travel. Of equal plans the one that lies furthest out, judged from the last
 * slice backwards.
 */
export function planDepth(line: Line, uses: readonly (readonly Use[])[], tips: TipTable): readonly number[] {
  const cache = new Map<number, Float64Array>();
  const rows = uses.map((use) => discomfortRow(use, tips, cache));
  const weights = line.slices.map((slice) => travelWeight(slice.seconds, slice.free, slice.phraseStart));
  return leastPath(rows, weights).map((step) => step + LEAST_DEPTH);
}

/** Discomfort of all fingers in use by grid step. */
function discomfortRow(uses: readonly Use[], tips: TipTable, cache: Map<number, Float64Array>): Float64Array {
  const [only] = uses;
  if (only && uses.length === 1) return fingerRow(only, tips, cache);
  const row = new Float64Array(SIZE);
  for (const use of uses) {
    const own = fingerRow(use, tips, cache);
    for (let step = 0; step < SIZE; step++) row[step]! += own[step]!;
  }
  return row;
}

function fingerRow({ finger, key }: Use, tips: TipTable, cache: Map<number, Float64Array>): Float64Array {
  const id = TipTable.id(finger, key);
  let row = cache.get(id);
  if (!row) {
    row = Float64Array.from(tips.row(finger, key), (tip) => grained(tip.discomfort));
    cache.set(id, row);
  }
  return row;
}

/**
 * Cheapest path through cost rows, `travelCost` between neighbours: dynamic programming forwards, traced backwards.
 *
 * @param rows cost by grid step, one row a slice
 * @param weights weight of the move into each slice; the first is not used
 */
export function leastPath(rows: readonly Float64Array[], weights: readonly number[]): number[] {
  const count = rows.length;
  if (count === 0) return [];
  const from = new Uint8Array(count * SIZE);
  let costs = Float64Array.from(rows[0]!);
  let next = new Float64Array(SIZE);
  const kernel = new Float64Array(SIZE);
  for (let at = 1; at < count; at++) {
    const weight = weights[at]!;
    for (let mm = 0; mm < SIZE; mm++) kernel[mm] = grained(weight * TRAVEL[mm]!);
    const origin = from.subarray(at * SIZE, (at + 1) * SIZE);
    spread(costs, kernel, next, origin, 0, SIZE - 1, 0, SIZE - 1);
    const row = rows[at]!;
    for (let step = 0; step < SIZE; step++) next[step]! += row[step]!;
    [costs, next] = [next, costs];
  }
  let step = costs.indexOf(Math.min(...costs));
  const path = new Array<number>(count);
  for (let at = count - 1; at >= 0; at--) {
    path[at] = step;
    step = from[at * SIZE + step]!;
  }
  return path;
}

/**
 * Least `costs[origin] + kernel[|step - origin|]` for every step. Because the kernel is convex, the furthest out of the
 * best origins never moves out while the step moves in: halve the steps, and the origins split with them.
 */
function spread(
  costs: Float64Array,
  kernel: Float64Array,
  least: Float64Array,
  origins: Uint8Array,
  low: number,
  high: number,
  first: number,
  last: number,
): void {
  if (low > high) return;
  const step = (low + high) >> 1;
  let best = Number.POSITIVE_INFINITY;
  let bestOrigin = first;
  for (let origin = first; origin <= last; origin++) {
    const cost = costs[origin]! + kernel[Math.abs(step - origin)]!;
    if (cost < best) {
      best = cost;
      bestOrigin = origin;
    }
  }
  least[step] = best;
  origins[step] = bestOrigin;
  spread(costs, kernel, least, origins, low, step - 1, first, bestOrigin);
  spread(costs, kernel, least, origins, step + 1, high, bestOrigin, last);
}
