import { placeTip } from '../../anatomy/fingertip.js';
import type { HandModel } from '../../anatomy/hand.js';
import { travelCost, travelWeight } from '../../anatomy/travel.js';
import { isFree } from '../../hands/fresh-start.js';
import { BoundedCache } from '../../numeric/bounded-cache.js';
import { toFixedPoint } from '../../numeric/fixed-point.js';
import type { Finger } from '../../score/model.js';
import type { SliceView } from '../view/view.js';

/** Forearm depths that the search distinguishes, mm; the motion plan refines them. */
export const DEPTHS: readonly number[] = [30, 42, 54, 66, 78, 90, 102];
export const DEPTH_COUNT = DEPTHS.length;

/** Weight of depth discomfort and travel against the other terms: they are stated in mm equivalents themselves. */
export const DEPTH_WEIGHT = 1;

/** Kernels of moves kept at most; a gradual change of tempo makes a new one at every onset. */
const MOST_KERNELS = 4096;

/** Depth costs of one hand at `DEPTHS`, worked out once for every finger and pitch class. */
export class DepthGrid {
  readonly #rows: Float64Array[] = [];
  readonly #kernels = new BoundedCache(MOST_KERNELS * DEPTH_COUNT ** 2);

  /** @param weight of depth against the other terms */
  constructor(
    private readonly hand: HandModel,
    private readonly weight: number,
  ) {}

  /** Adds the discomfort of all fingers on their keys to `row[start + depth]`. */
  addDiscomfort(view: SliceView, fingers: readonly Finger[], row: Float64Array, start: number): void {
    for (let at = 0; at < fingers.length; at++) {
      const own = this.#row(fingers[at]!, view.keys[at]!);
      for (let step = 0; step < DEPTH_COUNT; step++) row[start + step]! += own[step]!;
    }
  }

  /** Cost of every move into this slice: `kernel[from * DEPTH_COUNT + to]`. */
  kernel(view: SliceView): Float64Array {
    const weight = travelWeight(view.seconds, isFree(view.free, view.slice.phraseStart));
    return this.#kernels.get(weight) ?? this.#kernels.keep(weight, this.#moves(weight));
  }

  #moves(weight: number): Float64Array {
    const kernel = new Float64Array(DEPTH_COUNT * DEPTH_COUNT);
    for (let from = 0; from < DEPTH_COUNT; from++) {
      for (let to = 0; to < DEPTH_COUNT; to++) {
        const mm = DEPTHS[to]! - DEPTHS[from]!;
        kernel[from * DEPTH_COUNT + to] = toFixedPoint(this.weight * travelCost(mm, weight));
      }
    }
    return kernel;
  }

  #row(finger: Finger, key: number): Float64Array {
    const id = finger * 12 + (((key % 12) + 12) % 12);
    let row = this.#rows[id];
    if (!row) {
      row = new Float64Array(DEPTH_COUNT);
      for (let step = 0; step < DEPTH_COUNT; step++)
        row[step] = toFixedPoint(this.weight * placeTip(this.hand, finger, key, DEPTHS[step]!).discomfort);
      this.#rows[id] = row;
    }
    return row;
  }
}
