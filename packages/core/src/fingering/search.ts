import type { CostTable } from './cost.js';
import { DEPTH_COUNT, type DepthGrid } from './depth.js';
import type { Outlook } from './terms/term.js';
import type { SliceView } from './view.js';

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

/** Extra cost of candidates by slice, mm equivalents; undefined where there is none. */
export type Bias = readonly (Float64Array | undefined)[];

/**
 * Exact minimum of the stated cost over all fingerings and forearm depths of a line, by dynamic programming. The state
 * between two slices is (fingers of the slice before, fingers of this slice, depth of this slice): at most 11 x 11
 * candidates x 7 depths. Of equal costs the first candidate wins, judged from the last slice backwards.
 */
export function leastCost(
  views: readonly SliceView[],
  around: readonly Outlook[],
  costs: CostTable,
  grid: DepthGrid,
  bias?: Bias,
): Choice {
  const D = DEPTH_COUNT;
  const backs: { readonly before: Uint8Array; readonly depth: Uint8Array; readonly columns: number }[] = [];
  let state = new Float64Array(0);
  let moved = new Float64Array(0);
  let steps = new Float64Array(0);
  let chains = new Float64Array(0);
  const size = (array: Float64Array<ArrayBuffer>, least: number): Float64Array<ArrayBuffer> =>
    array.length >= least ? array : new Float64Array(least * 2);
  for (let at = 0; at < views.length; at++) {
    const view = views[at]!;
    const columns = view.candidates.length;
    const own = sliceCosts(view, around[at]!, costs, grid, bias?.[at]);
    const before = views[at - 1];
    if (!before) {
      state = Float64Array.from(own);
      backs.push({ before: new Uint8Array(0), depth: new Uint8Array(0), columns });
      continue;
    }
    const first = views[at - 2];
    const rows = before.candidates.length;
    const origins = first?.candidates.length ?? 1;
    const depth = new Uint8Array(origins * rows * D);
    moved = size(moved, origins * rows * D);
    spread(state, grid.kernel(view), origins * rows, moved, depth);
    steps = size(steps, rows * columns);
    costs.steps(before, view, steps);
    if (first) {
      chains = size(chains, origins * rows * columns);
      costs.chains(first, before, view, chains);
    }
    const next = new Float64Array(rows * columns * D);
    const back = new Uint8Array(rows * columns * D);
    for (let b = 0; b < rows; b++) {
      for (let c = 0; c < columns; c++) {
        const target = (b * columns + c) * D;
        for (let d = 0; d < D; d++) {
          let best = Number.POSITIVE_INFINITY;
          let origin = 0;
          for (let a = 0; a < origins; a++) {
            const cost = moved[(a * rows + b) * D + d]! + (first ? chains[(a * rows + b) * columns + c]! : 0);
            if (cost < best) {
              best = cost;
              origin = a;
            }
          }
          next[target + d] = best + steps[b * columns + c]! + own[c * D + d]!;
          back[target + d] = origin;
        }
      }
    }
    backs.push({ before: back, depth, columns });
    state = next;
  }
  return trace(views, state, backs, bias);
}

/** Cost of every candidate at every depth: `[candidate * DEPTH_COUNT + depth]`. */
function sliceCosts(
  view: SliceView,
  outlook: Outlook,
  costs: CostTable,
  grid: DepthGrid,
  bias: Float64Array | undefined,
): Float64Array {
  const own = new Float64Array(view.candidates.length * DEPTH_COUNT);
  view.candidates.forEach(({ fingers }, nth) => {
    const cost = costs.slice(view, fingers, outlook) + (bias?.[nth] ?? 0);
    own.fill(cost, nth * DEPTH_COUNT, (nth + 1) * DEPTH_COUNT);
    grid.addDiscomfort(view, fingers, own, nth * DEPTH_COUNT);
  });
  return own;
}

/** For every state, the cheapest depth to come from. */
function spread(
  state: Float64Array,
  kernel: Float64Array,
  states: number,
  moved: Float64Array,
  depth: Uint8Array,
): void {
  const D = DEPTH_COUNT;
  for (let at = 0; at < states; at++) {
    for (let to = 0; to < D; to++) {
      let best = Number.POSITIVE_INFINITY;
      let origin = 0;
      for (let from = 0; from < D; from++) {
        const cost = state[at * D + from]! + kernel[from * D + to]!;
        if (cost < best) {
          best = cost;
          origin = from;
        }
      }
      moved[at * D + to] = best;
      depth[at * D + to] = origin;
    }
  }
}

function trace(
  views: readonly SliceView[],
  state: Float64Array,
  backs: readonly { readonly before: Uint8Array; readonly depth: Uint8Array; readonly columns: number }[],
  bias: Bias | undefined,
): Choice {
  const D = DEPTH_COUNT;
  const count = views.length;
  if (count === 0) return { path: [], depths: [], biased: [], cost: 0 };
  let best = 0;
  for (let at = 1; at < state.length; at++) if (state[at]! < state[best]!) best = at;
  const path = new Array<number>(count);
  const depths = new Array<number>(count);
  const cost = state[best]!;
  for (let at = count - 1; at >= 0; at--) {
    const { before, depth, columns } = backs[at]!;
    depths[at] = best % D;
    const pair = Math.floor(best / D);
    path[at] = pair % columns;
    if (at === 0) break;
    const b = Math.floor(pair / columns);
    const rows = views[at - 1]!.candidates.length;
    const origin = before[best]! * rows + b;
    best = origin * D + depth[origin * D + (best % D)]!;
  }
  const biased = path.map((candidate, at) => bias?.[at]?.[candidate] ?? 0);
  return { path, depths, biased, cost };
}
