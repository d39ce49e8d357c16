import { DEPTH_COUNT } from './depth.js';
import { Fold } from './fold.js';
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
   * Least costs of all beginnings that end in each slice: `[starts[slice] + (candidate before * candidates + candidate) *
   * DEPTH_COUNT + depth]`.
   */
  readonly states: Float64Array;
  /** By slice, and behind the last one. */
  readonly starts: Uint32Array;
  /** Slices whose states were taken over from an earlier pass. */
  readonly taken: number;
}

/**
 * `leastChoice` with what it went through.
 *
 * @param earlier a pass over the same line under another bias: where the biases are the same, and what came before makes
 *   no difference any more but for a constant, nothing is searched again
 */
export function leastPass(stages: Stages, earlier?: Pass): Pass {
  const forward = new Forward(stages, earlier instanceof Forward ? earlier : undefined);
  return forward.run();
}

/** Walks through the slices in order. What it keeps by state lies in one array for the line: an array a slice costs more. */
class Forward extends Fold implements Pass {
  choice: Choice = { path: [], depths: [], biased: [], cost: 0 };
  readonly states: Float64Array;
  readonly starts: Uint32Array;
  taken = 0;
  /** Candidate two slices before. */
  readonly #before: Uint8Array;
  /** By state of the slice before but with the depth moved to: the depth moved from. */
  readonly #depth: Uint8Array;
  /** Where the states of the slice before begin, and the moves from there. */
  #from = 0;
  #kernel: Float64Array = new Float64Array(0);
  /** What the slice reached last costs more than in the earlier pass, where that is the same for all its states. */
  #gap: number | undefined;
  #earlier: Forward | undefined;

  constructor(
    private readonly stages: Stages,
    earlier: Forward | undefined,
  ) {
    super();
    this.#earlier = earlier;
    const count = stages.views.length;
    this.starts = new Uint32Array(count + 1);
    for (let at = 0; at < count; at++)
      this.starts[at + 1] = this.starts[at]! + stages.count(at - 1) * stages.count(at) * D;
    const states = this.starts[count]!;
    this.states = new Float64Array(states);
    this.#before = new Uint8Array(states);
    this.#depth = new Uint8Array(states);
  }

  run(): Pass {
    const count = this.stages.views.length;
    for (let at = this.#repeat(0); at < count; at = this.#repeat(at + 1)) {
      this.#advance(at);
      this.#gap = this.#gapAt(at);
    }
    // A pass keeps no earlier ones.
    this.#earlier = undefined;
    this.choice = this.#trace();
    return this;
  }

  /** Takes over what the earlier pass found, as long as the same holds here; returns the first slice where it does not. */
  #repeat(at: number): number {
    const { stages, states, starts } = this;
    const [earlier, gap] = [this.#earlier, this.#gap];
    if (!earlier || gap === undefined) return at;
    let next = at;
    while (next < stages.views.length && stages.sameBias(earlier.stages, next)) next++;
    if (next === at) return at;
    const [start, end] = [starts[at]!, starts[next]!];
    for (let cell = start; cell < end; cell++) states[cell] = earlier.states[cell]! + gap;
    this.#before.set(earlier.#before.subarray(start, end), start);
    const [first, last] = [starts[at - 1]!, starts[next - 1]!];
    this.#depth.set(earlier.#depth.subarray(first, last), first);
    this.taken += next - at;
    return next;
  }

  #advance(at: number): void {
    const { stages, states } = this;
    const own = stages.own(at);
    const [origins, rows, columns] = [stages.count(at - 2), stages.count(at - 1), stages.count(at)];
    const start = this.starts[at]!;
    if (at === 0) {
      for (let cell = 0; cell < columns * D; cell++) states[cell] = own[cell]!;
      return;
    }
    this.#depart(at, origins * rows, Math.max(origins, columns));
    const [steps, chains] = [stages.steps(at), stages.chains(at)];
    const sources = { count: origins, pair: rows, chain: rows * columns, middle: 1 };
    const targets = { count: columns, pair: 1, chain: 1, middle: columns };
    for (let b = 0; b < rows; b++)
      this.fold(b, sources, targets, chains, b * columns, states, start, this.#before);
    for (let pair = 0, cell = start; pair < rows * columns; pair++) {
      const step = steps[pair]!;
      const first = (pair % columns) * D;
      for (let depth = 0; depth < D; depth++, cell++)
        states[cell] = states[cell]! + (step + own[first + depth]!);
    }
  }

  /** Makes ready to move from the states of the slice before. */
  #depart(at: number, pairs: number, candidates: number): void {
    this.makeRoom(pairs, candidates);
    this.#kernel = this.stages.kernel(at);
    this.#from = this.starts[at - 1]!;
    const { states, least } = this;
    for (let pair = 0, cell = this.#from; pair < pairs; pair++) {
      let low = Number.POSITIVE_INFINITY;
      for (const end = cell + D; cell < end; cell++) if (states[cell]! < low) low = states[cell]!;
      least[pair] = low;
    }
  }

  /** What a slice costs more than in the earlier pass, or undefined where that is not the same for all its states. */
  #gapAt(at: number): number | undefined {
    const { states, starts } = this;
    const earlier = this.#earlier;
    if (!earlier) return undefined;
    const [start, end] = [starts[at]!, starts[at + 1]!];
    const gap = states[start]! - earlier.states[start]!;
    for (let cell = start; cell < end; cell++)
      if (states[cell]! - earlier.states[cell]! !== gap) return undefined;
    return gap;
  }

  /** For every depth the cheapest one to come from: the further out, the further out, because the kernel is convex. */
  protected override move(pair: number): number {
    const { moved } = this;
    const [state, origins, kernel] = [this.states, this.#depth, this.#kernel];
    const [start, out] = [this.#from + pair * D, pair * D];
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
      moved[out + to] = best;
      origins[start + to] = origin;
      if (best > most) most = best;
    }
    return most;
  }

  #trace(): Choice {
    const { stages, states, starts } = this;
    const count = stages.views.length;
    if (count === 0) return this.choice;
    let best = starts[count - 1]!;
    for (let cell = best + 1; cell < states.length; cell++) if (states[cell]! < states[best]!) best = cell;
    const path = new Array<number>(count);
    const depths = new Array<number>(count);
    const cost = states[best]!;
    for (let at = count - 1; at >= 0; at--) {
      const columns = stages.count(at);
      const state = best - starts[at]!;
      const depth = state % D;
      const pair = (state - depth) / D;
      depths[at] = depth;
      path[at] = pair % columns;
      if (at === 0) break;
      const b = Math.floor(pair / columns);
      const origin = starts[at - 1]! + (this.#before[best]! * stages.count(at - 1) + b) * D;
      best = origin + this.#depth[origin + depth]!;
    }
    const biased = path.map((candidate, at) => stages.bias?.[at]?.[candidate] ?? 0);
    return { path, depths, biased, cost };
  }
}
