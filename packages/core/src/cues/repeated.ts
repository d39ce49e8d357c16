import type { Line } from '../hands/line.js';
import type { FingerDepth, MotionPlan, SliceMotion } from '../motion/plan.js';
import type { LayerCues } from './layer-cues.js';

/** Measures within which a move that comes back on the same keys with the same fingers is not cued again: from memory. */
const REMEMBERED_MEASURES = 2;

/** Leaves out the same cue for the same move, as long as it keeps coming back. */
export function withoutRepeated(line: Line, plan: MotionPlan, cues: LayerCues): LayerCues {
  const lastMeasure = new Map<string, number>();
  const fresh = [...cues];
  for (let at = 0; at < cues.length; at++) {
    if (cues[at] === undefined) continue;
    const id = `${cues[at]} from ${grip(plan.slices[at - 1])} to ${grip(plan.slices[at])}`;
    const { measure } = line.slices[at]!;
    const last = lastMeasure.get(id);
    lastMeasure.set(id, measure);
    if (last !== undefined && measure - last <= REMEMBERED_MEASURES) fresh[at] = undefined;
  }
  return fresh;
}

/** The keys under the fingers, as text. */
function grip(slice: SliceMotion | undefined): string {
  return slice ? slice.fingers.map(fingerOnKey).join() : 'the start';
}

function fingerOnKey({ finger, key }: FingerDepth): string {
  return `${finger}:${key}`;
}
