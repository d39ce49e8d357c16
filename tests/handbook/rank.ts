import type { HandModel } from '#core/anatomy/hand.js';
import { DEPTH_COUNT } from '#core/fingering/cost/depth.js';
import { viewLine } from '#core/fingering/view/view.js';
import type { Line } from '#core/hands/line.js';
import { Ledger } from '../fingering/enumerate.js';
import { Likeness } from '../fingering/restated/likeness.js';

/** The stated cost of a line of single keys, likeness included: of given digits, and of every cheaper fingering. */
export class Ranking {
  readonly #likeness: Likeness;
  readonly #ledger: Ledger;
  readonly #count: number;
  readonly #rows: readonly (readonly Float64Array[])[];
  readonly #moves: readonly Float64Array[];
  /** Least cost from a slice on, by the fingers before and at it and the depth at it; its own and likeness left out. */
  readonly #toGo: readonly Float64Array[];

  constructor(line: Line, hand: HandModel) {
    const views = viewLine(line, hand, false);
    if (views.some((view) => view.candidates.length !== 5)) throw new RangeError('single keys only');
    this.#likeness = new Likeness(views);
    this.#ledger = new Ledger(views, hand);
    this.#count = views.length;
    this.#rows = views.map((view, at) => view.candidates.map((_, nth) => this.#ledger.discomfort(at, nth)));
    this.#moves = views.map((_, at) =>
      Float64Array.from({ length: DEPTH_COUNT ** 2 }, (__, cell) =>
        this.#ledger.move(at, Math.floor(cell / DEPTH_COUNT), cell % DEPTH_COUNT),
      ),
    );
    this.#toGo = this.#backwards();
  }

  /** Least cost of these digits over all depths. */
  cost(digits: string): number {
    const path = [...digits].map((digit) => Number(digit) - 1);
    let sums: Float64Array | undefined;
    for (let at = 0; at < path.length; at++) sums = this.#depths(sums, path, at);
    return Math.min(...sums!) + this.inconsistency(digits);
  }

  /** What these digits pay for being unlike themselves. */
  inconsistency(digits: string): number {
    return this.#likeness.paid([...digits].map((digit) => Number(digit) - 1));
  }

  /**
   * Number of fingerings that cost less, up to `most`: each is followed to its end that costs less before its figures are
   * compared.
   */
  cheaper(cost: number, most: number): number {
    const path: number[] = [];
    let found = 0;
    const walk = (sums: Float64Array | undefined): void => {
      const at = path.length;
      if (at === this.#count) {
        if (Math.min(...sums!) + this.#likeness.paid(path) < cost) found++;
        return;
      }
      for (let finger = 0; finger < 5 && found < most; finger++) {
        path.push(finger);
        const own = this.#depths(sums, path, at);
        const base = ((path[at - 1] ?? 0) * 5 + finger) * DEPTH_COUNT;
        if (own.some((sum, depth) => sum + this.#toGo[at]![base + depth]! < cost)) walk(own);
        path.pop();
      }
    };
    walk(undefined);
    return found;
  }

  /** Cost of a path up to slice `at`, by the depth there. */
  #depths(before: Float64Array | undefined, path: readonly number[], at: number): Float64Array {
    const cost = this.#ledger.added(path, at);
    const row = this.#rows[at]![path[at]!]!;
    const moves = this.#moves[at]!;
    return row.map((own, to) => {
      if (!before) return own + cost;
      let least = Number.POSITIVE_INFINITY;
      for (let from = 0; from < DEPTH_COUNT; from++) {
        least = Math.min(least, before[from]! + moves[from * DEPTH_COUNT + to]!);
      }
      return own + cost + least;
    });
  }

  #backwards(): Float64Array[] {
    const tables = Array.from({ length: this.#count }, () => new Float64Array(25 * DEPTH_COUNT));
    for (let at = this.#count - 2; at >= 0; at--) {
      const [table, next] = [tables[at]!.fill(Number.POSITIVE_INFINITY), tables[at + 1]!];
      const path = new Array<number>(at + 2).fill(0);
      for (let cell = 0; cell < 125; cell++) {
        const [a, b, c] = [Math.floor(cell / 25), Math.floor(cell / 5) % 5, cell % 5];
        if (at > 0) path[at - 1] = a;
        path[at] = b;
        path[at + 1] = c;
        const cost = this.#ledger.added(path, at + 1);
        for (let from = 0; from < DEPTH_COUNT; from++) {
          for (let to = 0; to < DEPTH_COUNT; to++) {
            const sum =
              cost +
              this.#moves[at + 1]![from * DEPTH_COUNT + to]! +
              this.#rows[at + 1]![c]![to]! +
              next[(b * 5 + c) * DEPTH_COUNT + to]!;
            const own = (a * 5 + b) * DEPTH_COUNT + from;
            if (sum < table[own]!) table[own] = sum;
          }
        }
      }
    }
    return tables;
  }
}
