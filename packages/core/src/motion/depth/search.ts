import { travelCost } from '../../anatomy/travel.js';
import { BoundedCache } from '../../numeric/bounded-cache.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import { GRID_SIZE } from '../tips.js';
import { farthest, type Move, mayTurn } from './forearm.js';

const SIZE = GRID_SIZE;
/**
 * Costs are multiples of this many mm equivalents, so that their sums are exact in binary and equal plans cost exactly
 * the same.
 */
export const GRAIN = 2 ** -16;

/** Kernels kept at most, 2 MB; a tempo that glides would make ever more. */
const MOST_KERNELS = 2048;

/** `TRAVEL[k]`: cost of moving by k mm at weight 1. */
const TRAVEL = Float64Array.from({ length: SIZE }, (_, mm) => travelCost(mm, 1));

type Direction = 1 | -1;

/** Cheapest ways to every grid step whose last move, or the stay after it, went one way. */
interface State {
  /** 1 in, -1 out. */
  readonly direction: Direction;
  /** Seconds since the arm turned; infinite where it may turn again. */
  readonly age: number;
  readonly costs: Float64Array;
  /** By step: state of the slice before, and the step there. */
  readonly states: Uint8Array;
  readonly origins: Uint8Array;
}

/**
 * Cheapest path through cost rows that the forearm can follow: `travelCost` between neighbours, a price of every
 * reversal, no move faster than the forearm, no reversal sooner after another than it can. A reversal is where the first move the other way sets out.
 * Dynamic programming over depth, direction and the time since the last reversal, traced backwards. Of equal plans one
 * that ends furthest out.
 *
 * @param rows cost by grid step, one row a slice
 * @param moves into each slice; the first is not used
 */
export function leastPath(rows: readonly Float64Array[], moves: readonly Move[]): number[] {
  if (rows.length === 0) return [];
  const search = new DepthSearch(rows);
  for (let at = 1; at < rows.length; at++) search.go(moves[at]!, rows[at]!);
  return search.path();
}

/** A state of the slice before, and whether the arm turns from there: that takes a move and has a price. */
interface Way {
  readonly nth: number;
  readonly costs: Float64Array;
  readonly turns: boolean;
  readonly price: number;
}

class DepthSearch {
  /** States of every slice; the first two may turn. */
  readonly #slices: (readonly State[])[];
  readonly #kernels = new BoundedCache(MOST_KERNELS * SIZE);
  readonly #low: number;
  readonly #high: number;

  constructor(rows: readonly Float64Array[]) {
    [this.#low, this.#high] = worthwhile(rows);
    const [states, origins] = [new Uint8Array(SIZE), new Uint8Array(SIZE)];
    const start = { age: Number.POSITIVE_INFINITY, costs: rows[0]!, states, origins };
    this.#slices = [
      [
        { ...start, direction: 1 },
        { ...start, direction: -1 },
      ],
    ];
  }

  /** Goes on to the next slice. */
  go(move: Move, row: Float64Array): void {
    const { weight } = move;
    const kernel = this.#kernels.get(weight) ?? this.#kernels.keep(weight, kernelOf(weight));
    const settled: State[] = [];
    const turning: State[] = [];
    for (const direction of DIRECTIONS) {
      const may = newState(direction, Number.POSITIVE_INFINITY);
      for (const state of this.#next(direction, may, move, kernel)) if (state !== may) turning.push(state);
      settled.push(may);
    }
    // A state that may not turn yet is of use only where it is cheaper than the one that may.
    const useful = turning.filter((state) => this.#isCheaper(state, settled[state.direction > 0 ? 0 : 1]!));
    const all = [...settled, ...useful];
    for (const { costs } of all)
      for (let step = this.#low; step <= this.#high; step++) costs[step]! += row[step]!;
    this.#slices.push(all);
  }

  /** States after a move in one direction or, where the arm does not turn, a stay. */
  #next(direction: Direction, may: State, move: Move, kernel: Float64Array): Set<State> {
    const all = new Set<State>();
    const before = this.#slices.at(-1)!;
    for (let nth = 0; nth < before.length; nth++) {
      const { direction: was, age, costs } = before[nth]!;
      const turns = was !== direction;
      if (turns && age !== Number.POSITIVE_INFINITY) continue;
      const since = turns ? move.seconds : age + move.seconds;
      const state = mayTurn(since) ? may : newState(direction, since);
      const way = { nth, costs, turns, price: turns ? toFixedPoint(move.turn, GRAIN) : 0 };
      this.#spread(way, state, farthest(move.seconds), kernel);
      all.add(state);
    }
    return all;
  }

  /**
   * Keeps what is cheaper by way of a state of the slice before. Because the kernel is convex, the best origin never moves
   * back while the step moves on. Near origins come first: once the move alone costs too much, so do all moves from
   * further away.
   *
   * @param most mm of the move at most
   */
  #spread({ nth, costs, turns, price }: Way, to: State, most: number, kernel: Float64Array): void {
    const { direction } = to;
    const floor = this.#least(costs);
    const nearest = turns ? 1 : 0;
    let first = direction > 0 ? this.#low : this.#high;
    const start = first;
    for (let on = nearest; on <= this.#high - this.#low; on++) {
      const step = start + direction * on;
      let [best, origin] = [Number.POSITIVE_INFINITY, -1];
      const end = Math.min(most, direction * (step - first));
      for (let mm = nearest; mm <= end && floor + kernel[mm]! <= best; mm++) {
        const from = step - direction * mm;
        const cost = costs[from]! + kernel[mm]!;
        // Of equal ways the one from furthest out.
        if (cost < best || (cost === best && from < origin)) [best, origin] = [cost, from];
      }
      if (origin < 0) continue;
      first = origin;
      keep(to, step, best + price, nth, origin);
    }
  }

  #least(costs: Float64Array): number {
    let least = Number.POSITIVE_INFINITY;
    for (let step = this.#low; step <= this.#high; step++) if (costs[step]! < least) least = costs[step]!;
    return least;
  }

  #isCheaper(state: State, than: State): boolean {
    for (let step = this.#low; step <= this.#high; step++)
      if (state.costs[step]! < than.costs[step]!) return true;
    return false;
  }

  /** The cheapest path to the last slice. */
  path(): number[] {
    const path = new Array<number>(this.#slices.length);
    let [state, step] = this.#cheapest();
    for (let at = path.length - 1; at >= 0; at--) {
      path[at] = step;
      const { states, origins } = this.#slices[at]![state]!;
      [state, step] = [states[step]!, origins[step]!];
    }
    return path;
  }

  #cheapest(): readonly [state: number, step: number] {
    const last = this.#slices.at(-1)!;
    let [state, step, least] = [0, 0, Number.POSITIVE_INFINITY];
    for (let at = this.#low; at <= this.#high; at++) {
      for (let nth = 0; nth < last.length; nth++) {
        const cost = last[nth]!.costs[at]!;
        if (cost < least) [state, step, least] = [nth, at, cost];
      }
    }
    return [state, step];
  }
}

const DIRECTIONS: readonly Direction[] = [1, -1];

function newState(direction: Direction, age: number): State {
  const costs = new Float64Array(SIZE).fill(Number.POSITIVE_INFINITY);
  return { direction, age, costs, states: new Uint8Array(SIZE), origins: new Uint8Array(SIZE) };
}

function keep(
  { costs, states, origins }: State,
  step: number,
  cost: number,
  state: number,
  origin: number,
): void {
  if (cost >= costs[step]!) return;
  costs[step] = cost;
  states[step] = state;
  origins[step] = origin;
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
