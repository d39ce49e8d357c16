import type { DepthMoves } from './depth-moves.js';

/**
 * How the candidates of the slice before or after a middle slice lie in the tables: a pair is one of them with one of the
 * middle slice's candidates, a chain is one of them with one of the middle slice's and one from beyond it.
 */
export interface AxisLayout {
  /** Number of candidates. */
  readonly count: number;
  /** From one candidate's pair, and its chain, to the next one's. */
  readonly pair: number;
  readonly chain: number;
  /** From the pairs with one candidate of the middle slice to those with the next one. */
  readonly middle: number;
}

/**
 * Leaves out sources that cannot be the cheapest for any target. Moves in depth even costs out, so that a pair's costs lie
 * close together, and a source whose least cost exceeds another's greatest, each with its chain, is never chosen: of the
 * 25 pairs of two single keys about 7 remain to be moved, and the others need no further look.
 */
export class Pruning {
  /** By target: no source that costs more need be looked at. */
  limits = new Float64Array(0);
  /** The sources that remain, in their order; `select` says how many. */
  kept = new Uint8Array(0);

  makeRoom(candidates: number): void {
    if (this.limits.length >= candidates) return;
    this.limits = new Float64Array(2 * candidates);
    this.kept = new Uint8Array(2 * candidates);
  }

  /**
   * Moves the sources that remain, and returns their number. The source that is cheapest without its chain goes first,
   * since it limits the others most.
   *
   * @param first pair of the first source
   * @param start chain of the first source and the first target
   */
  select(
    moves: DepthMoves,
    first: number,
    sources: AxisLayout,
    targets: AxisLayout,
    chains: Float64Array,
    start: number,
  ): number {
    const { least } = moves;
    const { limits, kept } = this;
    for (let target = 0; target < targets.count; target++) limits[target] = Number.POSITIVE_INFINITY;
    let lead = 0;
    let low = least[first]!;
    for (let source = 1; source < sources.count; source++) {
      const own = least[first + source * sources.pair]!;
      if (own < low) [lead, low] = [source, own];
    }
    if (low === Number.POSITIVE_INFINITY) return 0;
    this.#limit(moves, first + lead * sources.pair, targets, chains, start + lead * sources.chain);
    let count = 0;
    for (let source = 0; source < sources.count; source++) {
      if (source !== lead) {
        const pair = first + source * sources.pair;
        const own = least[pair]!;
        if (own === Number.POSITIVE_INFINITY) continue;
        let chain = start + source * sources.chain;
        let target = 0;
        while (target < targets.count && own + chains[chain]! > limits[target]!) {
          target++;
          chain += targets.chain;
        }
        if (target === targets.count) continue;
        this.#limit(moves, pair, targets, chains, start + source * sources.chain);
      }
      kept[count++] = source;
    }
    return count;
  }

  /** Moves a pair; its greatest cost limits what other sources may cost. */
  #limit(moves: DepthMoves, pair: number, targets: AxisLayout, chains: Float64Array, start: number): void {
    const { limits } = this;
    moves.move(pair);
    const greatest = moves.greatest[pair]!;
    for (let target = 0; target < targets.count; target++) {
      const cost = greatest + chains[start + target * targets.chain]!;
      if (cost < limits[target]!) limits[target] = cost;
    }
  }
}
