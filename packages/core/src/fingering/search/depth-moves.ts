import { DEPTH_COUNT } from '../cost/depth.js';

const D = DEPTH_COUNT;

/**
 * The forearm's moves from one slice to the next. Whatever the fingers, the forearm may go from every depth to every other
 * one: for a pair of candidates, the cost at the new depth is the least of the costs at the old ones plus that of the move.
 * Moves cost the same in both directions, so that this serves the search forward and backward alike. Only pairs that are
 * asked for are moved.
 */
export class DepthMoves {
  /** By pair, before the move: the least of its costs. */
  least = new Float64Array(0);
  /** `[pair * DEPTH_COUNT + depth]` of the pairs moved: the costs after the move. */
  moved = new Float64Array(0);
  /** By pair, after the move: the greatest of its costs. No cost after the move is below `least`. */
  greatest = new Float64Array(0);
  #costs: Float64Array = this.moved;
  #start = 0;
  #kernel: Float64Array = this.moved;
  #origins: Uint8Array | undefined;

  /**
   * Turns to the next slice.
   *
   * @param costs those before the move: `[start + pair * DEPTH_COUNT + depth]`
   * @param kernel costs of the moves: `[from * DEPTH_COUNT + to]`, convex in the distance
   * @param origins gets the depth before the move, of the pairs moved: `[start + pair * DEPTH_COUNT + depth]`
   */
  begin(costs: Float64Array, start: number, pairs: number, kernel: Float64Array, origins?: Uint8Array): void {
    if (this.least.length < pairs) {
      this.least = new Float64Array(2 * pairs);
      this.moved = new Float64Array(2 * pairs * D);
      this.greatest = new Float64Array(2 * pairs);
    }
    this.#costs = costs;
    this.#start = start;
    this.#kernel = kernel;
    this.#origins = origins;
    const { least } = this;
    for (let pair = 0, cell = start; pair < pairs; pair++) {
      let low = Number.POSITIVE_INFINITY;
      for (const end = cell + D; cell < end; cell++) if (costs[cell]! < low) low = costs[cell]!;
      least[pair] = low;
    }
  }

  /** Moves a pair. Because the kernel is convex, the best depth to come from only grows with the depth gone to. */
  move(pair: number): void {
    const { moved } = this;
    const costs = this.#costs;
    const kernel = this.#kernel;
    const origins = this.#origins;
    const start = this.#start + pair * D;
    const out = pair * D;
    let origin = 0;
    let greatest = Number.NEGATIVE_INFINITY;
    for (let to = 0; to < D; to++) {
      let best = costs[start + origin]! + kernel[origin * D + to]!;
      for (let from = origin + 1; from < D; from++) {
        const cost = costs[start + from]! + kernel[from * D + to]!;
        if (cost < best) {
          best = cost;
          origin = from;
        }
      }
      moved[out + to] = best;
      if (origins) origins[start + to] = origin;
      if (best > greatest) greatest = best;
    }
    this.greatest[pair] = greatest;
  }
}
