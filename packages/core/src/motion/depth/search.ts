import { BoundedCache } from '../../numeric/bounded-cache.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import { GRID_SIZE } from '../tips.js';
import { armTravel, farthest, type Move, mayTurn } from './forearm.js';

const SIZE = GRID_SIZE;
/**
 * Costs are multiples of this many mm equivalents, so that their sums are exact in binary and equal plans cost exactly
 * the same.
 */
export const GRAIN = 2 ** -16;

/** Kernels kept at most, 2 MB; a tempo that glides would make ever more. */
const MOST_KERNELS = 2048;

/** States of a slice to make room for at first; more where notes are quick. */
const USUAL_STATES = 3;

/** `TRAVEL[k]`: cost of moving by k mm at weight 1. */
const TRAVEL = Float64Array.from({ length: SIZE }, (_, mm) => armTravel(mm, 1));

type Direction = 1 | -1;
const DIRECTIONS: readonly Direction[] = [1, -1];

/** Cheapest ways to every grid step whose last move, or the stay after it, went one way. */
interface State {
  /** 1 in, -1 out. */
  readonly direction: Direction;
  /** Seconds since the arm turned; infinite where it may turn again. */
  readonly age: number;
  readonly costs: Float64Array;
  /** Where its origins begin in those of the line. */
  readonly start: number;
}

/**
 * Cheapest path through cost rows that the forearm can follow: `armTravel` between neighbours, a price of every
 * reversal, no move faster than the forearm, no reversal sooner after another than it can. A reversal is where the first
 * move the other way sets out. Dynamic programming over depth, direction and the time since the last reversal, traced
 * backwards. Of equal plans one that ends furthest out.
 *
 * @param rows cost by grid step, one row a slice
 * @param moves into each slice; the first is not used
 */
export function leastPath(rows: readonly Float64Array[], moves: readonly Move[]): number[] {
  if (rows.length === 0) return [];
  const search = new DepthSearch(rows);
  for (let at = 1; at < rows.length; at++) search.go(moves[at]!, rows[at]!);
  return search.path(rows.length);
}

class DepthSearch {
  readonly #low: number;
  readonly #high: number;
  readonly #kernels = new BoundedCache(MOST_KERNELS * SIZE);
  /** Of the slice reached; the first two may turn. */
  #states: readonly State[];
  /**
   * By state and step: where the way to it comes from, an index of this same array. One array for the line: small ones
   * cost more to make than to fill.
   */
  #origins: Uint32Array;
  #used = 0;
  /** Arrays of costs that no state needs any more. */
  readonly #spare: Float64Array[] = [];
  /** Origins that `#spread` may still choose. */
  readonly #queue = new Uint8Array(SIZE);

  constructor(rows: readonly Float64Array[]) {
    [this.#low, this.#high] = worthwhile(rows);
    this.#origins = new Uint32Array(USUAL_STATES * rows.length * (this.#high - this.#low + 1));
    this.#states = DIRECTIONS.map((direction) => this.#newState(direction, Number.POSITIVE_INFINITY));
    for (const { costs } of this.#states) costs.set(rows[0]!);
  }

  /** Goes on to the next slice. */
  go(move: Move, row: Float64Array): void {
    const before = this.#states;
    const kernel = this.#kernels.get(move.weight) ?? this.#kernels.keep(move.weight, kernelOf(move.weight));
    const settled: State[] = [];
    const turning: State[] = [];
    for (const direction of DIRECTIONS) {
      const may = this.#newState(direction, Number.POSITIVE_INFINITY);
      this.#settle(may, move, kernel);
      this.#turn(may, move, kernel, turning);
      settled.push(may);
    }
    this.#states = [...settled, ...turning];
    for (const { costs } of this.#states)
      for (let step = this.#low; step <= this.#high; step++) costs[step]! += row[step]!;
    for (const { costs } of before) this.#spare.push(costs);
  }

  /** All ways on to the state of a direction that may turn. */
  #settle(may: State, move: Move, kernel: Float64Array): void {
    for (const from of this.#states) {
      const since = sinceTurn(from, may.direction, move);
      if (mayTurn(since)) this.#spread(from, may, may, move, kernel);
    }
  }

  /** Adds the states of a direction that may not turn yet, where they are cheaper than the one that may. */
  #turn(may: State, move: Move, kernel: Float64Array, turning: State[]): void {
    for (const from of this.#states) {
      const since = sinceTurn(from, may.direction, move);
      if (Number.isNaN(since) || mayTurn(since)) continue;
      const state = this.#newState(may.direction, since);
      if (this.#spread(from, state, may, move, kernel)) {
        turning.push(state);
        continue;
      }
      this.#spare.push(state.costs);
      this.#used = state.start;
    }
  }

  /**
   * Keeps what is cheaper by way of a state of the slice before than what another has. A step's origin is sought among those behind it that
   * are cheaper than every nearer one, cheapest first; once one costs more than the best way, so do all after it. Because
   * the kernel is convex, the best origin never moves back while the step moves on.
   *
   * @returns whether anything was kept
   */
  #spread(before: State, to: State, than: State, move: Move, kernel: Float64Array): boolean {
    const { costs } = before;
    const { direction } = to;
    // To turn takes a move and has a price.
    const turns = before.direction !== direction;
    const price = turns ? toFixedPoint(move.turn, GRAIN) : 0;
    const queue = this.#queue;
    const most = farthest(move.seconds);
    const nearest = turns ? 1 : 0;
    const [start, end] = direction > 0 ? [this.#low, this.#high] : [this.#high, this.#low];
    let first = 0;
    let count = 0;
    let isKept = false;
    for (let step = start + direction * nearest; direction * (end - step) >= 0; step += direction) {
      const near = step - direction * nearest;
      const own = costs[near]!;
      if (own < Number.POSITIVE_INFINITY) {
        while (count > first && costs[queue[count - 1]!]! >= own) count--;
        queue[count++] = near;
      }
      while (first < count && direction * (step - queue[first]!) > most) first++;
      let best = than.costs[step]! - price;
      let origin = -1;
      for (let at = first; at < count; at++) {
        const from = queue[at]!;
        if (costs[from]! > best) break;
        const cost = costs[from]! + kernel[direction * (step - from)]!;
        // Of equal ways the one from furthest out.
        if (cost < best || (cost === best && from < origin)) {
          best = cost;
          origin = from;
          first = at;
        }
      }
      if (origin < 0) continue;
      to.costs[step] = best + price;
      this.#origins[to.start + step - this.#low] = before.start + origin - this.#low;
      isKept = true;
    }
    return isKept;
  }

  #newState(direction: Direction, age: number): State {
    const costs = this.#spare.pop() ?? new Float64Array(SIZE);
    const start = this.#used;
    this.#used += this.#high - this.#low + 1;
    if (this.#used > this.#origins.length) {
      const more = new Uint32Array(2 * this.#used);
      more.set(this.#origins);
      this.#origins = more;
    }
    return { direction, age, costs: costs.fill(Number.POSITIVE_INFINITY), start };
  }

  /** The cheapest path of so many slices. */
  path(count: number): number[] {
    const path = new Array<number>(count);
    const width = this.#high - this.#low + 1;
    let place = this.#cheapest();
    for (let at = count - 1; at >= 0; at--) {
      path[at] = this.#low + (place % width);
      place = this.#origins[place]!;
    }
    return path;
  }

  #cheapest(): number {
    let place = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let at = this.#low; at <= this.#high; at++) {
      for (const { costs, start } of this.#states) {
        if (costs[at]! >= least) continue;
        least = costs[at]!;
        place = start + at - this.#low;
      }
    }
    return place;
  }
}

/** Seconds since the arm turned after a move in a direction; NaN where it may not go that way. */
function sinceTurn({ direction, age }: State, next: Direction, { seconds }: Move): number {
  if (direction === next) return age + seconds;
  return age === Number.POSITIVE_INFINITY ? seconds : Number.NaN;
}

/** By mm: what a move costs at a weight. */
function kernelOf(weight: number): Float64Array {
  const kernel = new Float64Array(SIZE);
  for (let mm = 0; mm < SIZE; mm++) kernel[mm] = toFixedPoint(weight * TRAVEL[mm]!, GRAIN);
  return kernel;
}

/** The steps that the path keeps to: no further out or in than some slice asks for. */
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
