import { DEPTH_COUNT } from './depth.js';
import { Fold } from './fold.js';
import { bytes, numbers } from './slab.js';
import type { Stages } from './stages.js';

const D = DEPTH_COUNT;

/** The least-cost choice of candidates. */
export interface Choice {
  /** Index into `candidates` by slice. */
  readonly path: readonly number[];
  /** Index into `DEPTHS` by slice. */
  readonly depths: readonly number[];
  /** Share of the cost that the bias adds, by slice. */
  readonly biased: readonly number[];
  readonly cost: number;
}

/**
 * Exact minimum of the stated cost over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards.
 */
export function leastChoice(stages: Stages): Choice {
  return leastPass(stages).choice;
}

/** One pass of the search over a line. */
export interface Pass {
  readonly choice: Choice;
  /**
   * Least costs of all beginnings that end in each slice: `[(candidate before * candidates + candidate) * DEPTH_COUNT +
   * depth]`; after a pass that follows an earlier one, up to a constant.
   */
  readonly states: readonly Float64Array[];
}

/**
 * `leastChoice` with what it went through.
 *
 * @param earlier a pass over the same line under another bias: where the biases are the same, and what came before makes
 *   no difference any more, nothing is searched again
 */
export function leastPass(stages: Stages, earlier?: Pass): Pass {
  const forward = new Forward(stages, earlier instanceof Forward ? earlier : undefined);
  return forward.run();
}

/** Walks through the slices in order. */
class Forward extends Fold implements Pass {
  choice: Choice = { path: [], depths: [], biased: [], cost: 0 };
  readonly states: Float64Array[] = [];
  /** Candidate two slices before, by slice and state. */
  readonly #before: Uint8Array[] = [];
  /** Depth of the slice before, by slice and `[(two before * candidates before + before) * DEPTH_COUNT + depth]`. */
  readonly #depth: Uint8Array[] = [];
  readonly #numbers = numbers();
  readonly #bytes = bytes();
  #kernel: Float64Array = new Float64Array(0);
  /** True where the states of the slice reached last are the earlier pass's own. */
  #alike = false;
  /** What the states of every slice lack to be whole costs. */
  readonly #lack: number[] = [];
  #earlier: Forward | undefined;

  constructor(
    private readonly stages: Stages,
    earlier: Forward | undefined,
  ) {
    super();
    this.#earlier = earlier;
  }

  run(): Pass {
    for (let at = 0; at < this.stages.views.length; at++) {
      if (!this.#repeat(at)) this.#advance(at);
    }
    // A pass keeps no earlier ones.
    this.#earlier = undefined;
    this.choice = this.#trace();
    return this;
  }

  /** Takes over what the earlier pass found, where the same holds here. */
  #repeat(at: number): boolean {
    const earlier = this.#earlier;
    if (!earlier || !this.#alike || !this.stages.sameBias(earlier.stages, at)) return false;
    this.states.push(earlier.states[at]!);
    this.#lack.push(this.#lack[at - 1]! + earlier.#lack[at]! - earlier.#lack[at - 1]!);
    this.#before.push(earlier.#before[at]!);
    this.#depth.push(earlier.#depth[at]!);
    return true;
  }

  #advance(at: number): void {
    const { stages } = this;
    const own = stages.own(at);
    const [origins, rows, columns] = [stages.count(at - 2), stages.count(at - 1), stages.count(at)];
    const next = this.#numbers.take(rows * columns * D);
    if (at === 0) {
      next.set(own);
      this.#before.push(NONE);
      this.#depth.push(NONE);
    } else {
      const before = this.#bytes.take(next.length);
      this.#before.push(before);
      this.#depart(at, origins * rows, Math.max(origins, columns));
      const [steps, chains] = [stages.steps(at), stages.chains(at)];
      const sources = { count: origins, pair: rows, chain: rows * columns, middle: 1 };
      const targets = { count: columns, pair: 1, chain: 1, middle: columns };
      for (let b = 0; b < rows; b++) this.fold(b, sources, targets, chains, b * columns, next, before);
      for (let pair = 0, cell = 0; pair < steps.length; pair++) {
        const step = steps[pair]!;
        const start = (pair % columns) * D;
        for (let depth = 0; depth < D; depth++, cell++)
          next[cell] = next[cell]! + (step + own[start + depth]!);
      }
    }
    this.#enter(at, next);
  }

  /** Makes ready to move from the states of the slice before. */
  #depart(at: number, pairs: number, candidates: number): void {
    this.makeRoom(pairs, candidates);
    this.#kernel = this.stages.kernel(at);
    this.#depth.push(this.#bytes.take(pairs * D));
    const state = this.states[at - 1]!;
    for (let pair = 0; pair < pairs; pair++) {
      let low = Number.POSITIVE_INFINITY;
      for (let cell = pair * D; cell < (pair + 1) * D; cell++) if (state[cell]! < low) low = state[cell]!;
      this.least[pair] = low;
    }
  }

  /** Keeps a slice's state; the earlier pass's instead, if it is the same but for a constant. */
  #enter(at: number, state: Float64Array): void {
    const lack = this.#lack[at - 1] ?? 0;
    const other = this.#earlier?.states[at];
    const constant = other ? state[0]! - other[0]! : 0;
    this.#alike = other !== undefined && differBy(constant, state, other);
    this.states.push(this.#alike ? other! : state);
    this.#lack.push(this.#alike ? lack + constant : lack);
  }

  /** For every depth the cheapest one to come from: the further out, the further out, because the kernel is convex. */
  protected override move(pair: number): number {
    const { moved } = this;
    const [state, kernel] = [this.states.at(-1)!, this.#kernel];
    const origins = this.#depth.at(-1)!;
    const start = pair * D;
    let origin = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let to = 0; to < D; to++) {
      let best = state[start + origin]! + kernel[origin * D + to]!;
      for (let from = origin + 1; from < D; from++) {
        const cost = state[start + from]! + kernel[from * D + to]!;
        if (cost < best) {
          best = cost;
          origin = from;
        }
      }
      moved[start + to] = best;
      origins[start + to] = origin;
      if (best > most) most = best;
    }
    return most;
  }

  #trace(): Choice {
    const { stages, states } = this;
    const count = states.length;
    const last = states.at(-1);
    if (!last) return this.choice;
    let best = 0;
    for (let at = 1; at < last.length; at++) if (last[at]! < last[best]!) best = at;
    const path = new Array<number>(count);
    const depths = new Array<number>(count);
    const cost = last[best]! + this.#lack[count - 1]!;
    for (let at = count - 1; at >= 0; at--) {
      const columns = stages.count(at);
      depths[at] = best % D;
      const pair = Math.floor(best / D);
      path[at] = pair % columns;
      if (at === 0) break;
      const b = Math.floor(pair / columns);
      const origin = this.#before[at]![best]! * stages.count(at - 1) + b;
      best = origin * D + this.#depth[at]![origin * D + (best % D)]!;
    }
    const biased = path.map((candidate, at) => stages.bias?.[at]?.[candidate] ?? 0);
    return { path, depths, biased, cost };
  }
}

function differBy(constant: number, one: Float64Array, other: Float64Array): boolean {
  // Not `every`, which would make an object of each number.
  for (let at = 0; at < one.length; at++) if (one[at]! - other[at]! !== constant) return false;
  return true;
}

const NONE = new Uint8Array(0);
