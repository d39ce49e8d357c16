import { DEPTH_COUNT } from '../cost/depth.js';
import type { Objective } from '../cost/objective.js';

const D = DEPTH_COUNT;
/** Slices before and after changed ones whose depths may change with them; chains reach as far. */
const MARGIN = 2;

/**
 * Costs of a fingering around the slices that change, where the depths there are the best ones and all others stay: exact
 * for the fingering as far as the forearm does not do better by changing its depths farther away.
 */
export class Windows {
  /** First and last slices of the windows, by turns. */
  readonly #ends: number[] = [];
  /** `[slice * DEPTH_COUNT + depth]` of the windows looked at last: the depth that the forearm comes from. */
  readonly #origins: Uint8Array;
  readonly #lastDepths: number[] = [];
  #reached = new Float64Array(D);
  #next = new Float64Array(D);

  /** @param depths of the fingering, by slice; kept up to date */
  constructor(
    private readonly objective: Objective,
    readonly depths: number[],
  ) {
    this.#origins = new Uint8Array(objective.views.length * D);
  }

  /** Turns to the slices that change, ascending. */
  around(changed: readonly number[]): void {
    const ends = this.#ends;
    const last = this.objective.views.length - 1;
    ends.length = 0;
    for (const at of changed) {
      const from = Math.max(0, at - MARGIN);
      const to = Math.min(last, at + MARGIN);
      if (ends.length > 0 && from <= ends.at(-1)! + 1) ends[ends.length - 1] = to;
      else ends.push(from, to);
    }
  }

  /** What a fingering costs in all windows. */
  cost(path: readonly number[]): number {
    let sum = 0;
    for (let nth = 0; nth < this.#ends.length; nth += 2)
      sum += this.#costOf(path, this.#ends[nth]!, this.#ends[nth + 1]!, nth / 2);
    return sum;
  }

  /** Takes over the depths of the fingering looked at last. */
  settle(): void {
    for (let nth = 0; nth < this.#ends.length; nth += 2) {
      let depth = this.#lastDepths[nth / 2]!;
      for (let at = this.#ends[nth + 1]!; at >= this.#ends[nth]!; at--) {
        this.depths[at] = depth;
        depth = this.#origins[at * D + depth]!;
      }
    }
  }

  #costOf(path: readonly number[], from: number, to: number, nth: number): number {
    const { objective, depths } = this;
    let fingers = 0;
    for (let at = from; at <= to; at++) {
      fingers += this.#fingers(path, at) + (objective.bias?.[at]?.[path[at]!] ?? 0);
      const own = objective.own(at);
      const start = objective.ownStart(at) + path[at]! * D;
      const kernel = at > 0 ? objective.kernel(at) : undefined;
      const reached = this.#reached;
      const next = this.#next;
      for (let depth = 0; depth < D; depth++) {
        let best = 0;
        let origin = 0;
        if (kernel && at === from) {
          origin = depths[at - 1]!;
          best = kernel[origin * D + depth]!;
        } else if (kernel) {
          best = reached[0]! + kernel[depth]!;
          for (let other = 1; other < D; other++) {
            const cost = reached[other]! + kernel[other * D + depth]!;
            if (cost < best) {
              best = cost;
              origin = other;
            }
          }
        }
        next[depth] = best + own[start + depth]!;
        this.#origins[at * D + depth] = origin;
      }
      this.#reached = next;
      this.#next = reached;
    }
    return fingers + this.#leave(to, nth);
  }

  /** The least of the costs reached, with the way on to the depth after the window. */
  #leave(to: number, nth: number): number {
    const { objective, depths } = this;
    const kernel = to + 1 < depths.length ? objective.kernel(to + 1) : undefined;
    let best = Number.POSITIVE_INFINITY;
    for (let depth = 0; depth < D; depth++) {
      const cost = this.#reached[depth]! + (kernel ? kernel[depth * D + depths[to + 1]!]! : 0);
      if (cost < best) {
        best = cost;
        this.#lastDepths[nth] = depth;
      }
    }
    return best;
  }

  #fingers(path: readonly number[], at: number): number {
    const { objective } = this;
    if (at === 0) return 0;
    const columns = objective.count(at);
    const pair = path[at - 1]! * columns + path[at]!;
    const first = (path[at - 2] ?? 0) * objective.count(at - 1) * columns;
    return objective.steps(at)[pair]! + objective.chains(at)[first + pair]!;
  }
}
