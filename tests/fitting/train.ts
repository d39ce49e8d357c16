import { FEATURES, OFFSETS, TERMS } from '#core/fingering/cost/terms/terms.js';
import type { SliceFeatures } from './features.js';
import { expectation, MM_PER_NAT } from './likelihood.js';

/** A line ready for training, with the weight of its work. */
export interface Trainee {
  readonly slices: readonly SliceFeatures[];
  readonly weight: number;
}

export interface Regime {
  readonly epochs: number;
  readonly rate: number;
  /** Strength of the pull of all weights towards zero. */
  readonly pull: number;
  /** By term: how many times as strong the pull is. Default 1. */
  readonly pulls: Readonly<Record<string, number>>;
}

const WINDOW = 40;
const OVERLAP = 4;
const BATCH = 8;

/** Terms stated in mm or as plain counts of hardship; their weights stay positive. The others are habits. */
const MECHANICAL = ['travel', 'stretch', 'crossing', 'hop', 'thumb on black'];

/** Typical size of a feature's value: mm terms are counted in units of 20 mm while fitting. */
export const SCALE = new Float64Array(FEATURES).fill(1);
const POSITIVE = new Uint8Array(FEATURES);
TERMS.forEach(({ name, size }, nth) => {
  const start = OFFSETS[nth]!;
  if (name === 'travel' || name === 'stretch') SCALE.fill(1 / 20, start, start + size);
  if (MECHANICAL.includes(name)) POSITIVE.fill(1, start, start + size);
});

interface Window {
  readonly slices: readonly SliceFeatures[];
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

function windows(trainees: readonly Trainee[]): Window[] {
  return trainees.flatMap(({ slices, weight }) => {
    const found: Window[] = [];
    for (let start = 0; start < slices.length; start += WINDOW) {
      const [from, to] = [Math.max(0, start - OVERLAP), Math.min(slices.length, start + WINDOW + OVERLAP)];
      if (slices.slice(from, to).some(({ agrees }) => agrees)) found.push({ slices, from, to, weight });
    }
    return found;
  });
}

function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return state / 0x80000000;
  };
}

/**
 * Weights in mm equivalents that make the editors' digits likely: maximum likelihood of a log-linear model over whole
 * windows, unprinted digits summed out, pulled towards zero. Deterministic.
 */
export function train(
  trainees: readonly Trainee[],
  regime: Regime,
  log?: (line: string) => void,
): Float64Array {
  const theta = new Float64Array(FEATURES);
  const [mean, square, gradient] = [0, 1, 2].map(() => new Float64Array(FEATURES)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const average = new Float64Array(FEATURES);
  const pulls = Float64Array.from(
    TERMS.flatMap(({ name, size }) => new Array<number>(size).fill(regime.pulls[name] ?? 1)),
  );
  const random = generator(1);
  const all = windows(trainees);
  const total = all.reduce((sum, { weight }) => sum + weight, 0);
  let [steps, averaged] = [0, 0];
  for (let epoch = 0; epoch < regime.epochs; epoch++) {
    for (let at = all.length - 1; at > 0; at--) {
      const other = Math.floor(random() * (at + 1));
      [all[at], all[other]] = [all[other]!, all[at]!];
    }
    const share = epoch / regime.epochs;
    const rate = regime.rate * (share < 0.5 ? 1 : share < 0.8 ? 0.4 : 0.15);
    let likelihood = 0;
    for (let start = 0; start < all.length; start += BATCH) {
      gradient.fill(0);
      let weights = 0;
      for (const { slices, from, to, weight } of all.slice(start, start + BATCH)) {
        const agreeing = expectation(slices, from, to, theta, true, weight, gradient);
        const free = expectation(slices, from, to, theta, false, -weight, gradient);
        likelihood += weight * (agreeing - free);
        weights += weight;
      }
      steps++;
      const pull = (regime.pull * weights) / total;
      const [unbias, unbiasSquare] = [1 - 0.9 ** steps, 1 - 0.999 ** steps];
      for (let k = 0; k < FEATURES; k++) {
        const slope = gradient[k]! - pull * pulls[k]! * theta[k]!;
        if (slope === 0 && mean[k] === 0) continue;
        mean[k] = 0.9 * mean[k]! + 0.1 * slope;
        square[k] = 0.999 * square[k]! + 0.001 * slope * slope;
        theta[k]! += (rate * (mean[k]! / unbias)) / (Math.sqrt(square[k]! / unbiasSquare) + 1e-6);
        if (POSITIVE[k] && theta[k]! > 0) theta[k] = 0;
      }
      if (epoch < regime.epochs - 3) continue;
      averaged++;
      for (let k = 0; k < FEATURES; k++) average[k]! += theta[k]!;
    }
    log?.(`epoch ${epoch + 1}: log likelihood a window ${(likelihood / total).toFixed(4)}`);
  }
  return average.map((sum, k) => (-sum / averaged) * MM_PER_NAT * SCALE[k]!);
}
