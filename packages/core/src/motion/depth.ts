import { travelCost, travelWeight } from '../anatomy/travel.js';
import { isFree } from '../hands/fresh-start.js';
import type { Line, Slice } from '../hands/line.js';
import { BoundedCache } from '../numeric/bounded-cache.js';
import { toFixedPoint } from '../numeric/fixed-point.js';
import type { Use } from './fingers-in-use.js';
import { GRID_SIZE, LEAST_DEPTH, TipTable } from './tips.js';

const SIZE = GRID_SIZE;
/**
 * Costs are multiples of this many mm equivalents, so that their sums are exact in binary, equal plans cost exactly the
 * same and the rounded travel cost stays convex.
 */
const GRAIN = 2 ** -16;

/** Kernels kept at most, 2 MB; a tempo that glides would make ever more. */
const MOST_KERNELS = 2048;

/** `TRAVEL[k]`: cost of moving by k mm at weight 1. */
const TRAVEL = Float64Array.from({ length: SIZE }, (_, mm) => travelCost(mm, 1));

/**
 * Forearm depth of every slice in whole mm: the exact minimum over the whole line of fingertip discomfort (all fingers
 * in use, held ones included) plus forearm travel. Of equal plans the one that lies furthest out, judged from the last
 * slice backwards.
 */
export function planDepth(line: Line, uses: readonly (readonly Use[])[], tips: TipTable): readonly number[] {
  const cache = new Map<number, Float64Array>();
  const rows: Float64Array[] = [];
  for (const inUse of uses) rows.push(discomfortRow(inUse, tips, cache));
  return leastPath(rows, line.slices.map(weightInto)).map(depthOf);
}

/** Weight of the move into a slice. */
function weightInto({ seconds, free, phraseStart }: Slice): number {
  return travelWeight(seconds, isFree(free, phraseStart));
}

function depthOf(step: number): number {
  return step + LEAST_DEPTH;
}

/** Discomfort of all fingers in use by grid step; the same fingers on the same pitch classes share one row. */
function discomfortRow(uses: readonly Use[], tips: TipTable, cache: Map<number, Float64Array>): Float64Array {
  let id = 0;
  for (const { finger, key } of uses) id = id * TipTable.IDS + TipTable.id(finger, key);
  const known = cache.get(id);
  if (known) return known;
  const row = new Float64Array(SIZE);
  for (const { finger, key } of uses) {
    const { discomforts } = tips.row(finger, key);
    for (let step = 0; step < SIZE; step++) row[step]! += toFixedPoint(discomforts[step]!, GRAIN);
  }
  // More than eight fingers, as where two hold one key, have an id beyond the exact integers.
  if (Number.isSafeInteger(id)) cache.set(id, row);
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
  const [low, high] = worthwhile(rows);
  const from = new Uint8Array(count * SIZE);
  let costs = Float64Array.from(rows[0]!);
  let next = new Float64Array(SIZE);
  const kernels = new BoundedCache(MOST_KERNELS * SIZE);
  let floor = Number.NEGATIVE_INFINITY;
  for (let at = 1; at < count; at++) {
    const weight = weights[at]!;
    const kernel = kernels.get(weight) ?? kernels.keep(weight, kernelOf(weight));
    spread(costs, kernel, next, from.subarray(at * SIZE, (at + 1) * SIZE), low, high, floor);
    const row = rows[at]!;
    floor = Number.POSITIVE_INFINITY;
    for (let step = low; step <= high; step++) {
      next[step]! += row[step]!;
      floor = Math.min(floor, next[step]!);
    }
    [costs, next] = [next, costs];
  }
  let step = low;
  for (let other = low + 1; other <= high; other++) if (costs[other]! < costs[step]!) step = other;
  const path = new Array<number>(count);
  for (let at = count - 1; at >= 0; at--) {
    path[at] = step;
    step = from[at * SIZE + step]!;
  }
  return path;
}

/** By mm: what a move costs at a weight. */
function kernelOf(weight: number): Float64Array {
  const kernel = new Float64Array(SIZE);
  for (let mm = 0; mm < SIZE; mm++) kernel[mm] = toFixedPoint(weight * TRAVEL[mm]!, GRAIN);
  return kernel;
}

/**
 * The steps that the chosen path keeps to. Where every row falls up to a step, or rises from one on, a path that goes
 * beyond it is no better than the same path cut off there: no move gets longer by that.
 */
function worthwhile(rows: readonly Float64Array[]): readonly [low: number, high: number] {
  let low = SIZE - 1;
  let high = 0;
  for (const row of new Set(rows)) {
    let falls = 0;
    while (falls < low && row[falls + 1]! < row[falls]!) falls++;
    low = falls;
    let rises = SIZE - 1;
    while (rises > high && row[rises - 1]! <= row[rises]!) rises--;
    high = rises;
  }
  return [Math.min(low, high), high];
}

/** Largest power of two within the grid. */
const FIRST_STRIDE = 2 ** Math.floor(Math.log2(SIZE));

/**
 * Least `costs[origin] + kernel[|step - origin|]` for every step from `low` to `high`. Because the kernel is convex,
 * the furthest out of the best origins never moves out while the step moves in: each round halves the stride, and the
 * origins of a step lie between those of its two neighbours in the rounds before. Near origins come first: once the
 * move alone costs too much, so do all moves from further away.
 *
 * @param floor the least of `costs`
 */
function spread(
  costs: Float64Array,
  kernel: Float64Array,
  least: Float64Array,
  origins: Uint8Array,
  low: number,
  high: number,
  floor: number,
): void {
  for (let stride = FIRST_STRIDE; stride >= 1; stride >>= 1) {
    let first = low;
    for (let step = low + stride - 1; step <= high; step += 2 * stride) {
      const last = step + stride > high ? high : origins[step + stride]!;
      const nearest = Math.min(step, last);
      let best = Number.POSITIVE_INFINITY;
      let bestOrigin = first;
      for (let origin = nearest; origin >= first; origin--) {
        const move = kernel[step - origin]!;
        if (floor + move > best) break;
        const cost = costs[origin]! + move;
        if (cost <= best) {
          best = cost;
          bestOrigin = origin;
        }
      }
      for (let origin = Math.max(first, nearest + 1); origin <= last; origin++) {
        const move = kernel[origin - step]!;
        if (floor + move >= best) break;
        const cost = costs[origin]! + move;
        if (cost < best) {
          best = cost;
          bestOrigin = origin;
        }
      }
      least[step] = best;
      origins[step] = bestOrigin;
      first = last;
    }
  }
}
