import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { MotionPlan } from '../motion/plan.js';
import type { Density } from '../options/options.js';

/**
 * The reader's rule. Who reads the cues begins where the plan begins. A cue in or out sends the reader that way with the
 * plan, as far as the keys ask, note after note, until a note asks for nothing more in that direction; otherwise the
 * reader stays. Where the hand makes a fresh start, after a rest or at a phrase, it comes back of itself to where the
 * fingers want it.
 */
export type Direction = 1 | -1;

/** Where a reader is, mm, and which way a cue still sends them; 0 for nowhere. */
export interface ReaderState {
  readonly depth: number;
  readonly heading: Direction | 0;
}

/** What the reader meets at one slice. */
export interface ReaderStep {
  readonly planned: number;
  /** Change of the planned depth from the slice before, mm. */
  readonly change: number;
  readonly fresh: boolean;
  /** Since the slice before. */
  readonly seconds: number;
}

export function readerSteps(line: Line, { slices }: Pick<MotionPlan, 'slices'>): readonly ReaderStep[] {
  const steps: ReaderStep[] = [];
  for (let at = 0; at < slices.length; at++) {
    const { depth, depthChange } = slices[at]!;
    steps.push({
      planned: depth,
      change: depthChange,
      fresh: isFreshStart(line.slices[at]!),
      seconds: line.slices[at]!.seconds,
    });
  }
  return steps;
}

/** @param cue the direction of a cue at this slice, 0 for none */
export function read(
  { depth, heading }: ReaderState,
  { planned, change, fresh }: ReaderStep,
  cue: Direction | 0,
): ReaderState {
  if (fresh) return { depth: planned, heading: 0 };
  const way = cue || (Math.sign(change) === heading ? heading : 0);
  if (way === 0) return { depth, heading: 0 };
  return { depth: way > 0 ? Math.max(depth, planned) : Math.min(depth, planned), heading: way };
}

/** mm by which the reader may be away from the plan, by density, where notes are no quicker than the reference. From memory. */
export const TOLERANCES = { every: 5, essential: 20, demanding: 26 } as const satisfies Record<
  Density,
  number
>;
/** Seconds a note from which the tolerance grows with the pace, and by what factor at most. From memory. */
const REFERENCE_SECONDS = 0.4;
const GREATEST_FACTOR = 2;
const LEAST_SECONDS = 1e-3;

/** @param seconds since the slice before */
export function tolerance(density: Density, seconds: number): number {
  const factor = REFERENCE_SECONDS / Math.max(LEAST_SECONDS, seconds);
  return TOLERANCES[density] * Math.min(GREATEST_FACTOR, Math.max(1, factor));
}
