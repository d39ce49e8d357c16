import type { Line } from '../hands/line.js';
import type { FingerDepth, MotionPlan, SliceMotion } from '../motion/plan.js';
import type { CueKey } from './keys.js';
import type { LayerCues } from './layer-cues.js';

/** Measures within which what comes back is not cued again: from memory. */
const REMEMBERED_MEASURES = 2;

/** What a player has been told of, by name: it is not told again as long as it keeps coming back. */
export class Remembered {
  readonly #measures = new Map<string, number>();

  /** Whether this came within the last measures; notes that it comes now. */
  comesBack(id: string, measure: number): boolean {
    const last = this.#measures.get(id);
    this.#measures.set(id, measure);
    return last !== undefined && measure - last <= REMEMBERED_MEASURES;
  }
}

/** Leaves out the same cue for the same move. */
export function withoutRepeated(line: Line, plan: MotionPlan, cues: LayerCues): LayerCues {
  const told = new Remembered();
  return cues.map((key, at): CueKey | undefined => {
    if (key === undefined) return undefined;
    const id = `${key} ${moveInto(plan, at)}`;
    return told.comesBack(id, line.slices[at]!.measure) ? undefined : key;
  });
}

/** The keys under the fingers before and at a slice, as text. */
export function moveInto({ slices }: MotionPlan, at: number): string {
  return `from ${grip(slices[at - 1])} to ${grip(slices[at])}`;
}

function grip(slice: SliceMotion | undefined): string {
  return slice ? slice.fingers.map(fingerOnKey).join() : 'the start';
}

function fingerOnKey({ finger, key }: FingerDepth): string {
  return `${finger}:${key}`;
}
