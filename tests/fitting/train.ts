import { leastWeights } from '#core/fingering/cost/corrections.js';
import { sizeOf } from '#core/fingering/cost/terms/blocks.js';
import { isHabit } from '#core/fingering/cost/terms/term.js';
import { FEATURES, OFFSETS, TERMS } from '#core/fingering/cost/terms/terms.js';
import type { Criterion } from '#core/options/options.js';
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

/** Typical size of a feature's value: mm terms are counted in units of 20 mm while fitting. */
export const SCALE = new Float64Array(FEATURES).fill(1);
/** Features whose weights are stated, not fitted. */
const STATED = new Uint8Array(FEATURES);
const HABIT = new Uint8Array(FEATURES);
TERMS.forEach((term, nth) => {
  const { name, blocks, stated } = term;
  const [start, size] = [OFFSETS[nth]!, sizeOf(blocks)];
  if (name === 'travel') SCALE.fill(1 / 20, start, start + size);
  if (name === 'stretch') for (let at = 0; at < size; at++) SCALE[start + at] = at % 4 === 1 ? 1 : 1 / 20;
  if (isHabit(term)) HABIT.fill(1, start, start + size);
  if (stated) STATED.fill(1, start, start + size);
});

/** Of the order of windows. */
export const SEED = 1;

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
export function train(trainees: readonly Trainee[], regime: Regime, measure: Criterion): Float64Array {
  const theta = new Float64Array(FEATURES);
  // A log-linear score is the cost with the other sign.
  const most = leastWeights().map((mm, at) => -mm / MM_PER_NAT / SCALE[at]!);
  for (let k = 0; k < FEATURES; k++) if (theta[k]! > most[k]!) theta[k] = most[k]!;
  TERMS.forEach(({ stated }, nth) => {
    stated?.forEach((mm, at) => {
      theta[OFFSETS[nth]! + at] = -mm / MM_PER_NAT / SCALE[OFFSETS[nth]! + at]!;
    });
  });
  const [mean, square, gradient] = [0, 1, 2].map(() => new Float64Array(FEATURES)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const average = new Float64Array(FEATURES);
  // By movement alone, habits stay at nothing.
  const fixed = STATED.map((stated, k) => (stated || (measure === 'movement' && HABIT[k]!) ? 1 : 0));
  const pulls = Float64Array.from(
    TERMS.flatMap(({ name, blocks }) => new Array<number>(sizeOf(blocks)).fill(regime.pulls[name] ?? 1)),
  );
  const random = generator(SEED);
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
    for (let start = 0; start < all.length; start += BATCH) {
      gradient.fill(0);
      let weights = 0;
      for (const { slices, from, to, weight } of all.slice(start, start + BATCH)) {
        expectation(slices, from, to, theta, true, weight, gradient);
        expectation(slices, from, to, theta, false, -weight, gradient);
        weights += weight;
      }
      steps++;
      const pull = (regime.pull * weights) / total;
      const [unbias, unbiasSquare] = [1 - 0.9 ** steps, 1 - 0.999 ** steps];
      for (let k = 0; k < FEATURES; k++) {
        const slope = gradient[k]! - pull * pulls[k]! * theta[k]!;
        if (fixed[k] || (slope === 0 && mean[k] === 0)) continue;
        mean[k] = 0.9 * mean[k]! + 0.1 * slope;
        square[k] = 0.999 * square[k]! + 0.001 * slope * slope;
        theta[k]! += (rate * (mean[k]! / unbias)) / (Math.sqrt(square[k]! / unbiasSquare) + 1e-6);
        if (theta[k]! > most[k]!) theta[k] = most[k]!;
      }
      if (epoch < regime.epochs - 3) continue;
      averaged++;
      for (let k = 0; k < FEATURES; k++) average[k]! += theta[k]!;
    }
  }
  return average.map((sum, k) => (-sum / averaged) * MM_PER_NAT * SCALE[k]!);
}
