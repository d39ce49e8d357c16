import { DEPTH_COUNT } from './depth.js';
import { Ranges } from './search.js';
import type { Stages } from './stages.js';

/**
 * Least cost of everything after each slice, for every state of the search:
 * `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`, exact, by the same recursion run backwards.
 */
export function costsToGo(stages: Stages): readonly Float64Array[] {
  const toGo: Float64Array[] = new Array(stages.views.length);
  const ranges = new Ranges();
  let after: Float64Array | undefined;
  for (let at = toGo.length - 1; at >= 0; at--) {
    after = costsBehind(stages, at, after, ranges);
    toGo[at] = after;
  }
  return toGo;
}

/** The same of one slice, from that of the next one. */
function costsBehind(
  stages: Stages,
  at: number,
  after: Float64Array | undefined,
  ranges: Ranges,
): Float64Array {
  const D = DEPTH_COUNT;
  const [origins, rows, columns] = [stages.count(at - 1), stages.count(at), stages.count(at + 1)];
  const here = new Float64Array(origins * rows * D);
  if (!after) return here;
  const onward = onwardCosts(stages, at + 1, after);
  const chains = stages.chains(at + 1);
  const { least, most } = ranges.fit(onward, rows * columns);
  for (let cell = 0; cell < origins * rows; cell++) {
    const [pairs, links] = [(cell % rows) * columns, cell * columns];
    let limit = Number.POSITIVE_INFINITY;
    for (let c = 0; c < columns; c++) {
      const cost = most[pairs + c]! + chains[links + c]!;
      if (cost < limit) limit = cost;
    }
    let first = true;
    for (let c = 0; c < columns; c++) {
      const chain = chains[links + c]!;
      if (least[pairs + c]! + chain > limit) continue;
      for (let d = 0; d < D; d++) {
        const cost = chain + onward[(pairs + c) * D + d]!;
        if (first || cost < here[cell * D + d]!) here[cell * D + d] = cost;
      }
      first = false;
    }
  }
  return here;
}

/** From a depth of the slice before, through slice `at`, to the end: `[(before * candidates + candidate) * D + depth]`. */
function onwardCosts(stages: Stages, at: number, after: Float64Array): Float64Array {
  const D = DEPTH_COUNT;
  const [own, steps, kernel] = [stages.own(at), stages.steps(at), stages.kernel(at)];
  const columns = stages.count(at);
  const onward = new Float64Array(after.length);
  for (let pair = 0; pair * D < after.length; pair++) {
    // The kernel is convex: from further out the best way leads no less far out.
    let aim = 0;
    for (let from = 0; from < D; from++) {
      let best = Number.POSITIVE_INFINITY;
      for (let to = aim; to < D; to++) {
        const cost = kernel[from * D + to]! + own[(pair % columns) * D + to]! + after[pair * D + to]!;
        if (cost < best) {
          best = cost;
          aim = to;
        }
      }
      onward[pair * D + from] = best + steps[pair]!;
    }
  }
  return onward;
}

/**
 * For every slice and candidate, the cost of the best fingering of the whole line that uses it; exact.
 *
 * @param states of the search by slice, as `leastChoice` gives them
 */
export function leastCostsThrough(stages: Stages, states: readonly Float64Array[]): readonly Float64Array[] {
  const through: Float64Array[] = new Array(states.length);
  const ranges = new Ranges();
  let after: Float64Array | undefined;
  for (let at = states.length - 1; at >= 0; at--) {
    after = costsBehind(stages, at, after, ranges);
    const state = states[at]!;
    const columns = stages.count(at);
    const own = new Float64Array(columns).fill(Number.POSITIVE_INFINITY);
    for (let pair = 0; pair * DEPTH_COUNT < state.length; pair++) {
      let least = own[pair % columns]!;
      for (let cell = pair * DEPTH_COUNT; cell < (pair + 1) * DEPTH_COUNT; cell++) {
        const cost = state[cell]! + after[cell]!;
        if (cost < least) least = cost;
      }
      own[pair % columns] = least;
    }
    through[at] = own;
  }
  return through;
}
