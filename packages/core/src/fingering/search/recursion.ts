import { DEPTH_COUNT } from '../cost/depth.js';

const D = DEPTH_COUNT;

/** The candidates on one side of a slice: where their pairs with its own candidates and their chains lie in the tables. */
export interface AxisLayout {
  readonly count: number;
  /** From one candidate's pair, and its chain, to the next one's. */
  readonly pair: number;
  readonly chain: number;
  /** From the pairs with one candidate of the slice itself to those with the next one. */
  readonly middle: number;
}

/** What both recursions of the search, from the first slice on and from the last one back, have in common. */
export abstract class Recursion {
  /** Least of the costs of every pair of candidates. */
  protected least = new Float64Array(0);
  /** `[pair * DEPTH_COUNT + depth]`: the costs of a pair that has been moved, and the greatest of them. */
  protected moved = new Float64Array(0);
  protected most = new Float64Array(0);
  #limits = new Float64Array(0);
  #kept = new Uint8Array(0);

  /**
   * Lets the forearm of a pair move from every depth to every other, for `moved` and `most`. None of its costs falls below
   * its least.
   */
  protected abstract move(pair: number): void;

  protected makeRoom(pairs: number, candidates: number): void {
    if (this.least.length < pairs) {
      this.least = new Float64Array(2 * pairs);
      this.moved = new Float64Array(2 * pairs * D);
      this.most = new Float64Array(2 * pairs);
    }
    if (this.#limits.length < candidates) {
      this.#limits = new Float64Array(2 * candidates);
      this.#kept = new Uint8Array(2 * candidates);
    }
  }

  /**
   * For a candidate in the middle, every target and depth, the cheapest source with its chain:
   * `out[offset + pair * DEPTH_COUNT + depth]`, and in `before`, from an offset of its own, which one it was. Of equal ones
   * the first wins. Moving evens depths out, so that a pair's costs lie close together: a source whose least costs more
   * than another's greatest, whatever the target, is neither moved nor followed, nor is one without a way on, whose costs
   * are infinite.
   *
   * @param start index of the candidate's first chain
   * @param offset of the first pair in `out`
   */
  protected advanceOne(
    middle: number,
    sources: AxisLayout,
    targets: AxisLayout,
    chains: Float64Array,
    start: number,
    out: Float64Array,
    offset: number,
    before?: Uint8Array,
    offsetBefore = 0,
  ): void {
    const { least, moved } = this;
    const [limits, kept] = [this.#limits, this.#kept];
    const first = middle * sources.middle;
    const count = this.#follow(first, sources, targets, chains, start);
    for (let target = 0; target < targets.count; target++) {
      const pairOut = (middle * targets.middle + target * targets.pair) * D;
      const [to, toBefore] = [offset + pairOut, offsetBefore + pairOut];
      const limit = limits[target]!;
      let fresh = true;
      for (let nth = 0; nth < count; nth++) {
        const source = kept[nth]!;
        const pair = first + source * sources.pair;
        const chain = chains[start + source * sources.chain + target * targets.chain]!;
        if (least[pair]! + chain > limit) continue;
        const from = pair * D;
        for (let depth = 0; depth < D; depth++) {
          const cost = moved[from + depth]! + chain;
          if (fresh || cost < out[to + depth]!) {
            out[to + depth] = cost;
            if (before) before[toBefore + depth] = source;
          }
        }
        fresh = false;
      }
      if (fresh) for (let depth = 0; depth < D; depth++) out[to + depth] = Number.POSITIVE_INFINITY;
    }
  }

  /** Moves the sources that can be the cheapest for any target; returns how many there are. */
  #follow(
    first: number,
    sources: AxisLayout,
    targets: AxisLayout,
    chains: Float64Array,
    start: number,
  ): number {
    const { least } = this;
    const [limits, kept] = [this.#limits, this.#kept];
    for (let target = 0; target < targets.count; target++) limits[target] = Number.POSITIVE_INFINITY;
    let lead = 0;
    let low = least[first]!;
    for (let source = 1; source < sources.count; source++) {
      const own = least[first + source * sources.pair]!;
      if (own < low) [lead, low] = [source, own];
    }
    if (low === Number.POSITIVE_INFINITY) return 0;
    this.#limit(first + lead * sources.pair, targets, chains, start + lead * sources.chain);
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
        this.#limit(pair, targets, chains, start + source * sources.chain);
      }
      kept[count++] = source;
    }
    return count;
  }

  /** Moves a pair; what it costs at most limits what others may cost. */
  #limit(pair: number, targets: AxisLayout, chains: Float64Array, start: number): void {
    const limits = this.#limits;
    this.move(pair);
    const most = this.most[pair]!;
    for (let target = 0; target < targets.count; target++) {
      const cost = most + chains[start + target * targets.chain]!;
      if (cost < limits[target]!) limits[target] = cost;
    }
  }
}
