import type { MotionPlan } from '../motion/plan.js';
import type { CueKey } from './keys.js';

/** Smallest sideways travel of the arm in one direction worth a cue, mm: from memory. */
const NOTICEABLE_CARRY = 40;
/** Fingers that the wrist rises with at least: between the thumbs of a group of three there are two. */
const RISING_FINGERS = 2;

/** A cue by slice of one layer. */
export type LayerCues = (CueKey | undefined)[];

/** No cue at any slice. */
export function none({ slices }: MotionPlan): LayerCues {
  return new Array<CueKey | undefined>(slices.length).fill(undefined);
}

/** One cue on the note from which the arm sets out. */
export function carryCues(plan: MotionPlan): LayerCues {
  const { slices } = plan;
  const cues = none(plan);
  for (let start = 1; start < slices.length; ) {
    const direction = Math.sign(slices[start]!.armChange);
    let end = start + 1;
    while (end < slices.length && Math.sign(slices[end]!.armChange) === direction) end++;
    const travel = Math.abs(slices[end - 1]!.arm - slices[start - 1]!.arm);
    if (direction !== 0 && travel >= NOTICEABLE_CARRY)
      cues[start - 1] = direction > 0 ? 'arm-right' : 'arm-left';
    start = end;
  }
  return cues;
}

/** One cue where the wrist begins to rise, and one where it comes level after it. */
export function contourCues(plan: MotionPlan): LayerCues {
  const { slices } = plan;
  const cues = none(plan);
  for (let start = 0; start < slices.length; ) {
    let end = start + 1;
    if (slices[start]!.contour > 0) {
      while (end < slices.length && slices[end]!.contour > slices[end - 1]!.contour) end++;
      if (end - start >= RISING_FINGERS) {
        cues[start] = 'wrist-rises';
        if (end < slices.length) cues[end] = 'wrist-level';
      }
    }
    start = end;
  }
  return cues;
}
