import { DEPTH_COUNT } from './depth.js';

const D = DEPTH_COUNT;

/** The candidates on one side of the slice in the middle: where their pairs with it and their chains lie in the tables. */
export interface Side {
  readonly count: number;
  /** Index of the first one's pair, and the way from one to the next. */
  readonly first: number;
  readonly pair: number;
  /** The way from one's chains to the next one's. */
  readonly chain: number;
}

/** What both recursions of the search, from the first slice on and from the last one back, have in common. */
export abstract class Fold {
  /** Least of the costs of every pair of candidates. */
  protected least = new Float64Array(0);
  /** `[pair * DEPTH_COUNT + depth]`: the costs of a pair that has been moved. */
  protected moved = new Float64Array(0);
  #limits = new Float64Array(0);
  #kept = new Uint8Array(0);

  /** Lets the forearm of a pair move from every depth to every other. None of its costs falls below its least. */
  protected abstract move(pair: number): void;

  protected makeRoom(pairs: number): void {
    if (this.least.length >= pairs) return;
    this.least = new Float64Array(2 * pairs);
    this.moved = new Float64Array(2 * pairs * D);
  }

  /**
   * For one candidate in the middle, every target and depth, the cheapest source with its chain:
   * `out[pair * DEPTH_COUNT + depth]`, and in `before` which one it was. Of equal ones the first wins. Moving evens depths
   * out, so that a pair's costs lie close together: a source whose least costs more than another's greatest, whatever the
   * target, is neither moved nor followed.
   *
   * @param start index of the first chain
   */
  protected fold(
    sources: Side,
    targets: Side,
    chains: Float64Array,
    start: number,
    out: Float64Array,
    before?: Uint8Array,
  ): void {
    const { least, moved } = this;
    const count = this.#follow(sources, targets, chains, start);
    for (let target = 0; target < targets.count; target++) {
      const to = (targets.first + target * targets.pair) * D;
      const limit = this.#limits[target]!;
      let first = true;
      for (let nth = 0; nth < count; nth++) {
        const source = this.#kept[nth]!;
        const pair = sources.first + source * sources.pair;
        const chain = chains[start + source * sources.chain + target * targets.chain]!;
        if (least[pair]! + chain > limit) continue;
        for (let depth = 0; depth < D; depth++) {
          const cost = moved[pair * D + depth]! + chain;
          if (first || cost < out[to + depth]!) {
            out[to + depth] = cost;
            if (before) before[to + depth] = source;
          }
        }
        first = false;
      }
    }
  }

  /** Moves the sources that can be the cheapest for any target; returns how many there are. */
  #follow(sources: Side, targets: Side, chains: Float64Array, start: number): number {
    const { least } = this;
    if (this.#limits.length < targets.count) this.#limits = new Float64Array(2 * targets.count);
    if (this.#kept.length < sources.count) this.#kept = new Uint8Array(2 * sources.count);
    const limits = this.#limits.fill(Number.POSITIVE_INFINITY, 0, targets.count);
    let lead = 0;
    for (let source = 1; source < sources.count; source++) {
      const [own, best] = [sources.first + source * sources.pair, sources.first + lead * sources.pair];
      if (least[own]! < least[best]!) lead = source;
    }
    this.#moveWithin(sources, lead, targets, chains, start);
    let count = 0;
    for (let source = 0; source < sources.count; source++) {
      if (source !== lead) {
        const low = least[sources.first + source * sources.pair]!;
        let chain = start + source * sources.chain;
        let target = 0;
        for (; target < targets.count; target++, chain += targets.chain) {
          if (low + chains[chain]! <= limits[target]!) break;
        }
        if (target === targets.count) continue;
        this.#moveWithin(sources, source, targets, chains, start);
      }
      this.#kept[count++] = source;
    }
    return count;
  }

  /** Moves a source's pair; what it costs at most limits what others may cost. */
  #moveWithin(sources: Side, source: number, targets: Side, chains: Float64Array, start: number): void {
    const { moved } = this;
    const limits = this.#limits;
    const pair = sources.first + source * sources.pair;
    this.move(pair);
    let most = Number.NEGATIVE_INFINITY;
    for (let cell = pair * D; cell < (pair + 1) * D; cell++) if (moved[cell]! > most) most = moved[cell]!;
    let chain = start + source * sources.chain;
    for (let target = 0; target < targets.count; target++, chain += targets.chain) {
      const cost = most + chains[chain]!;
      if (cost < limits[target]!) limits[target] = cost;
    }
  }
}

/** The least of every state's costs by depth. */
export function leastByDepth(costs: Float64Array, states: number, least: Float64Array): void {
  for (let state = 0; state < states; state++) {
    let low = Number.POSITIVE_INFINITY;
    for (let cell = state * D; cell < (state + 1) * D; cell++) if (costs[cell]! < low) low = costs[cell]!;
    least[state] = low;
  }
}
