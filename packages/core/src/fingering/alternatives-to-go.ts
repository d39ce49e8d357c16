import { DEPTH_COUNT } from './depth.js';
import { forward, Ranges } from './search.js';
import type { Stages } from './stages.js';

/**
 * Least cost of everything after each slice, for every state of the search:
 * `[(candidate before * candidates + candidate) * DEPTH_COUNT + depth]`, exact, by the same recursion run backwards.
 */
export function costsToGo(stages: Stages): readonly Float64Array[] {
  const D = DEPTH_COUNT;
  const last = stages.views.length - 1;
  const toGo: Float64Array[] = new Array(stages.views.length);
  if (last < 0) return toGo;
  const ranges = new Ranges();
  toGo[last] = new Float64Array(stages.count(last - 1) * stages.count(last) * D);
  for (let at = last - 1; at >= 0; at--) {
    const [origins, rows, columns] = [stages.count(at - 1), stages.count(at), stages.count(at + 1)];
    const onward = onwardCosts(stages, at + 1, toGo[at + 1]!);
    const chains = at > 0 ? stages.chains(at + 1) : undefined;
    const here = new Float64Array(origins * rows * D).fill(Number.POSITIVE_INFINITY);
    ranges.fit(onward, rows * columns);
    for (let a = 0; a < origins; a++) {
      for (let b = 0; b < rows; b++) {
        let limit = Number.POSITIVE_INFINITY;
        for (let c = 0; c < columns; c++) {
          const chain = chains ? chains[(a * rows + b) * columns + c]! : 0;
          limit = Math.min(limit, ranges.most[b * columns + c]! + chain);
        }
        for (let c = 0; c < columns; c++) {
          const chain = chains ? chains[(a * rows + b) * columns + c]! : 0;
          if (ranges.least[b * columns + c]! + chain > limit) continue;
          for (let d = 0; d < D; d++) {
            const cost = chain + onward[(b * columns + c) * D + d]!;
            if (cost < here[(a * rows + b) * D + d]!) here[(a * rows + b) * D + d] = cost;
          }
        }
      }
    }
    toGo[at] = here;
  }
  return toGo;
}

/** From a depth of the slice before, through slice `at`, to the end: `[(before * candidates + candidate) * D + depth]`. */
function onwardCosts(stages: Stages, at: number, after: Float64Array): Float64Array {
  const D = DEPTH_COUNT;
  const [own, steps, kernel] = [stages.own(at), stages.steps(at), stages.kernel(at)];
  const columns = stages.count(at);
  const onward = new Float64Array(after.length).fill(Number.POSITIVE_INFINITY);
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
 * @param toGo `costsToGo` of the stages
 */
export function leastCostsThrough(stages: Stages, toGo = costsToGo(stages)): readonly Float64Array[] {
  const advance = forward(stages);
  return stages.views.map((_, at) => {
    const { state } = advance(at);
    const columns = stages.count(at);
    const through = new Float64Array(columns).fill(Number.POSITIVE_INFINITY);
    for (let cell = 0; cell < state.length; cell++) {
      const candidate = Math.floor(cell / DEPTH_COUNT) % columns;
      const cost = state[cell]! + toGo[at]![cell]!;
      if (cost < through[candidate]!) through[candidate] = cost;
    }
    return through;
  });
}
