import { DEPTH_COUNT } from '../cost/depth.js';
import type { DepthMoves } from './depth-moves.js';
import { type AxisLayout, Pruning } from './pruning.js';

const D = DEPTH_COUNT;

/** The tables of one step of the recursion, and where it writes. */
export interface Step {
  /** Number of candidates of the slice in the middle. */
  readonly middles: number;
  /** The slice that the recursion comes from, and the one that it goes to. */
  readonly sources: AxisLayout;
  readonly targets: AxisLayout;
  /** Costs of all chains of the three slices; those with one candidate in the middle begin so far after the last one's. */
  readonly chains: Float64Array;
  readonly middleChain: number;
  /** `[pair * DEPTH_COUNT + depth]`: gets the least costs by pair of middle and target. */
  readonly out: Float64Array;
  /** `[start + pair * DEPTH_COUNT + depth]`: gets the sources that the least costs come from. */
  readonly chosen?: Uint8Array;
  readonly start: number;
}

/**
 * The dynamic programme's step from one slice to the next, forward or backward in time: the forearm moves, and for every
 * pair of candidates reached, and every depth, the cheapest candidate to come from is found.
 */
export class Recursion {
  readonly #pruning = new Pruning();

  /** @param moves of the pairs of source and middle, begun for this step */
  constructor(private readonly moves: DepthMoves) {}

  take(step: Step): void {
    this.#pruning.makeRoom(Math.max(step.sources.count, step.targets.count));
    for (let middle = 0; middle < step.middles; middle++) this.#through(middle, step);
  }

  /** Of equal sources the first wins. */
  #through(middle: number, { sources, targets, chains, middleChain, out, chosen, start }: Step): void {
    const { least, moved } = this.moves;
    const { limits, kept } = this.#pruning;
    const first = middle * sources.middle;
    const firstChain = middle * middleChain;
    const count = this.#pruning.select(this.moves, first, sources, targets, chains, firstChain);
    for (let target = 0; target < targets.count; target++) {
      const to = (middle * targets.middle + target * targets.pair) * D;
      const limit = limits[target]!;
      let found = false;
      for (let nth = 0; nth < count; nth++) {
        const source = kept[nth]!;
        const pair = first + source * sources.pair;
        const chain = chains[firstChain + source * sources.chain + target * targets.chain]!;
        if (least[pair]! + chain > limit) continue;
        const from = pair * D;
        for (let depth = 0; depth < D; depth++) {
          const cost = moved[from + depth]! + chain;
          if (!found || cost < out[to + depth]!) {
            out[to + depth] = cost;
            if (chosen) chosen[start + to + depth] = source;
          }
        }
        found = true;
      }
      if (!found) for (let depth = 0; depth < D; depth++) out[to + depth] = Number.POSITIVE_INFINITY;
    }
  }
}
