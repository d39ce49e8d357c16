import type { HandModel } from '../anatomy/hand.js';
import type { Line } from '../hands/line.js';
import type { Draft } from '../score/draft.js';
import { planCarry } from './carry.js';
import { clearanceFindings } from './clearance.js';
import { planContour } from './contour.js';
import { thumbCrossings } from './crossings.js';
import { planDepth } from './depth.js';
import type { FingerDepth, MotionPlan, SliceMotion } from './plan.js';
import { depthReason } from './reason.js';
import { planRoll } from './roll.js';
import { TipTable } from './tips.js';
import { fingersInUse, type GivenFingers, type Use } from './use.js';

/** Largest inward move that still is a lean, mm, and the discomfort it may find under the finger: from memory. */
const LARGEST_LEAN = 6;
const AT_EASE = 1;

/**
 * The motion of one hand for given fingers. Keys without a finger count for nothing: the hand moves through them on its
 * way to the next.
 */
export function planMotion(line: Line, given: GivenFingers, hand: HandModel): MotionPlan {
  const uses = fingersInUse(line, given);
  const tips = new TipTable(hand);
  const depths = planDepth(line, uses, tips);
  const arm = planCarry(line, uses, hand);
  const crossings = thumbCrossings(line, uses, hand);
  const contour = planContour(line, uses);
  const roll = planRoll(line, uses);
  const slices = uses.map((now, at): SliceMotion => {
    const depth = depths[at]!;
    const before = at > 0 ? depths[at - 1]! : depth;
    const crossing = crossings[at];
    const motion: Draft<SliceMotion> = {
      depth,
      depthChange: depth - before,
      lean: isLean(before, depth, now, tips),
      fingers: now.map((use) => fingerDepth(use, depth, tips)),
      reason: depthReason(before, depth, now, uses[at + 1] ?? [], tips),
      arm: arm[at]!,
      armChange: at > 0 ? arm[at]! - arm[at - 1]! : 0,
      contour: contour[at]!,
      roll: roll[at]!.roll,
      rollPrepare: roll[at]!.prepare,
    };
    if (crossing) motion.crossing = crossing;
    return motion;
  });
  return {
    slices,
    findings: clearanceFindings(line, arm, crossings),
    depthTravel: slices.reduce((sum, slice) => sum + Math.abs(slice.depthChange), 0),
  };
}

function fingerDepth(use: Use, depth: number, tips: TipTable): FingerDepth {
  const { tip, curl } = tips.at(use.finger, use.key, depth);
  return { finger: use.finger, key: use.key, tip, curl };
}

/** A small move in although every struck finger would have been at ease without it. */
function isLean(from: number, to: number, now: readonly Use[], tips: TipTable): boolean {
  if (to <= from || to - from > LARGEST_LEAN) return false;
  return now.every((use) => !use.struck || tips.discomfort(use.finger, use.key, from) <= AT_EASE);
}
