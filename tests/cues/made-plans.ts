import type { Line } from '#core/hands/line.js';
import type { Crossing, MotionPlan, SliceMotion } from '#core/motion/plan.js';
import type { Finger } from '#core/score/model.js';
import { CROSSING, lineOf, type Step } from '../motion/lines.js';

/** One slice of a plan written by hand: what a test does not say is at rest. */
export interface Made extends Partial<Omit<SliceMotion, 'crossing' | 'fingers'>> {
  readonly crossing?: Partial<Crossing>;
  readonly finger?: Finger;
  readonly key?: number;
  readonly seconds?: number;
  /** Seconds without a key before it. */
  readonly free?: number;
  readonly measure?: number;
}

/** A line of single keys, two fifths of a second apart, eight a measure, and a plan of its motion, both as written. */
export function made(slices: readonly Made[]): { readonly line: Line; readonly plan: MotionPlan } {
  const steps = slices.map(({ key = 60, finger = 2, seconds, free }): Step => {
    return {
      keys: [key],
      fingers: [finger],
      ...(seconds !== undefined && { seconds }),
      ...(free !== undefined && { free }),
    };
  });
  const { line } = lineOf('right', steps, 0.4);
  const plan = slices.map(
    ({ crossing, finger = 2, key = 60, seconds: _, free: __, measure: ___, ...own }): SliceMotion => {
      return {
        depth: 0,
        depthChange: 0,
        lean: false,
        fingers: [{ finger, key, tip: 0, curl: 0 }],
        arm: 0,
        armChange: 0,
        contour: 0,
        roll: 0,
        rollPrepare: false,
        ...own,
        ...(crossing && { crossing: { ...CROSSING, ...crossing } }),
      };
    },
  );
  return {
    line: {
      ...line,
      slices: line.slices.map((slice, at) => ({ ...slice, measure: slices[at]!.measure ?? slice.measure })),
    },
    plan: { slices: plan, findings: [], depthTravel: 0 },
  };
}

/** Slices that differ in one number each. */
export function row(name: 'contour' | 'roll', values: readonly number[]): Made[] {
  return values.map((value) => ({ [name]: value }));
}

/** Slices with the arm at these places. */
export function arms(places: readonly number[]): Made[] {
  return places.map((arm, at) => ({ arm, armChange: at === 0 ? 0 : arm - places[at - 1]! }));
}

/** Slices with the forearm at these depths. */
export function depths(all: readonly number[]): Made[] {
  return all.map((depth, at) => ({ depth, depthChange: at === 0 ? 0 : depth - all[at - 1]! }));
}
