import type { Rows, SliceFeatures } from './features.js';

/** mm equivalents of one nat: a choice that costs this much more is e times less likely. */
export const MM_PER_NAT = 10;

function rowScore({ starts, index, value }: Rows, row: number, theta: Float64Array): number {
  let sum = 0;
  for (let at = starts[row]!; at < starts[row + 1]!; at++) sum += theta[index[at]!]! * value[at]!;
  return sum;
}

function addRow({ starts, index, value }: Rows, row: number, weight: number, gradient: Float64Array): void {
  for (let at = starts[row]!; at < starts[row + 1]!; at++) gradient[index[at]!]! += weight * value[at]!;
}

/** Scores of all (before, slice) steps and of all chains that end at a slice. */
export function sliceScores(slice: SliceFeatures, theta: Float64Array): Float64Array {
  const { origins, rows, columns } = slice;
  const size = rows * columns;
  const steps = new Float64Array(size);
  for (let c = 0; c < columns; c++) {
    const own = rowScore(slice.slice, c, theta);
    for (let b = 0; b < rows; b++) steps[b * columns + c] = own;
  }
  for (let at = 0; at < size; at++) {
    if (slice.step) steps[at]! += rowScore(slice.step, at, theta);
    if (slice.fixed) steps[at]! -= slice.fixed[at]! / MM_PER_NAT;
  }
  const scores = new Float64Array(origins * size);
  for (let a = 0; a < origins; a++) {
    for (let at = 0; at < size; at++) {
      const chain = slice.chain ? rowScore(slice.chain, a * size + at, theta) : 0;
      scores[a * size + at] = steps[at]! + chain;
    }
  }
  return scores;
}

/**
 * Adds `sign` x expected features over slices [from, to) to `gradient` and returns the log of the sum over all
 * fingerings, or over those that agree with the editor. Forward-backward on the same lattice as the search.
 */
export function expectation(
  slices: readonly SliceFeatures[],
  from: number,
  to: number,
  theta: Float64Array,
  agreeing: boolean,
  sign: number,
  gradient: Float64Array,
): number {
  const weights: Float64Array[] = [];
  const forward: Float64Array[] = [];
  const norms: number[] = [];
  let log = 0;
  for (let at = from; at < to; at++) {
    const slice = slices[at]!;
    const { origins, rows, columns, agrees } = slice;
    const scores = sliceScores(slice, theta);
    const size = rows * columns;
    let most = Number.NEGATIVE_INFINITY;
    for (const score of scores) if (score > most) most = score;
    for (let i = 0; i < scores.length; i++) {
      scores[i] = agreeing && agrees && !agrees[i % columns] ? 0 : Math.exp(scores[i]! - most);
    }
    const now = new Float64Array(size);
    const before = at > from ? forward[at - from - 1] : undefined;
    for (let a = 0; a < origins; a++) {
      for (let b = 0; b < rows; b++) {
        const mass = before ? before[a * rows + b]! : 1;
        if (mass === 0) continue;
        for (let c = 0; c < columns; c++) {
          now[b * columns + c]! += mass * scores[(a * rows + b) * columns + c]!;
        }
      }
    }
    let sum = 0;
    for (const mass of now) sum += mass;
    if (!(sum > 0)) return Number.NaN;
    for (let i = 0; i < size; i++) now[i]! /= sum;
    log += most + Math.log(sum);
    weights.push(scores);
    forward.push(now);
    norms.push(sum);
  }
  backward(slices, from, to, weights, forward, norms, sign, gradient);
  return log;
}

function backward(
  slices: readonly SliceFeatures[],
  from: number,
  to: number,
  weights: readonly Float64Array[],
  forward: readonly Float64Array[],
  norms: readonly number[],
  sign: number,
  gradient: Float64Array,
): void {
  let behind = new Float64Array(forward.at(-1)!.length).fill(1);
  for (let at = to - 1; at >= from; at--) {
    const slice = slices[at]!;
    const { origins, rows, columns, chain, step } = slice;
    const scores = weights[at - from]!;
    const before = at > from ? forward[at - from - 1] : undefined;
    const next = new Float64Array(origins * rows);
    const steps = new Float64Array(rows * columns);
    for (let a = 0; a < origins; a++) {
      for (let b = 0; b < rows; b++) {
        const mass = before ? before[a * rows + b]! : 1;
        let sum = 0;
        for (let c = 0; c < columns; c++) {
          const pair = b * columns + c;
          const share = (scores[a * rows * columns + pair]! * behind[pair]!) / norms[at - from]!;
          sum += share;
          const chance = mass * share;
          if (chance < 1e-9) continue;
          steps[pair]! += chance;
          if (chain) addRow(chain, a * rows * columns + pair, sign * chance, gradient);
        }
        next[a * rows + b] = sum;
      }
    }
    const own = new Float64Array(columns);
    for (let pair = 0; pair < steps.length; pair++) {
      if (steps[pair]! < 1e-9) continue;
      own[pair % columns]! += steps[pair]!;
      if (step) addRow(step, pair, sign * steps[pair]!, gradient);
    }
    for (let c = 0; c < columns; c++) addRow(slice.slice, c, sign * own[c]!, gradient);
    behind = next;
  }
}
