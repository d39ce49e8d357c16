import type { HandModel } from '../anatomy/hand.js';
import type { PlayingContext } from '../hands/context.js';
import { asPlayed } from '../hands/joins.js';
import type { Line } from '../hands/line.js';
import { checkFingers, checkLine } from '../options/allowed.js';
import type { Draft } from '../score/draft.js';
import { planCarry } from './carry.js';
import { clearanceFindings } from './clearance.js';
import { planContour } from './contour.js';
import { planDepth } from './depth/depth.js';
import { fingersInUse, type GivenFingers, type Use } from './fingers-in-use.js';
import type { FingerDepth, MotionPlan, SliceMotion } from './plan.js';
import { depthReason } from './reason.js';
import { planRoll } from './roll.js';
import { thumbCrossings } from './thumb-crossings.js';
import { type TipTable, tipTables } from './tips.js';

/**
 * Largest inward move that still is a lean, mm, and the greatest discomfort of a finger at ease, mm equivalents: from
 * memory.
 */
const LARGEST_LEAN = 6;
const AT_EASE = 1;

/**
 * The motion of one hand for given fingers. Keys without a finger count for nothing: the hand moves through them to the
 * next.
 *
 * @param context the line's, as `readLines` gives it: at a second ending the hand makes a fresh start. Without it the
 *   line is planned as if it were played as printed
 */
export function planMotion(
  line: Line,
  given: GivenFingers,
  hand: HandModel,
  context: Pick<PlayingContext, 'flow'> = {},
): MotionPlan {
  checkLine(line, hand);
  checkFingers(given);
  return motionOf(asPlayed(line, context.flow), given, hand);
}

function motionOf(line: Line, given: GivenFingers, hand: HandModel): MotionPlan {
  const uses = fingersInUse(line, given);
  const tips = tipTables.of(hand);
  const depths = planDepth(line, uses, tips);
  const arm = planCarry(line, uses, hand);
  const crossings = thumbCrossings(line, uses, hand);
  const contour = planContour(line, uses);
  const roll = planRoll(line, uses);
  const slices: SliceMotion[] = [];
  let depthTravel = 0;
  for (let at = 0; at < uses.length; at++) {
    const now = uses[at]!;
    const depth = depths[at]!;
    const before = at > 0 ? depths[at - 1]! : depth;
    const crossing = crossings[at];
    const motion: Draft<SliceMotion> = {
      depth,
      depthChange: depth - before,
      lean: isLean(before, depth, now, tips),
      fingers: fingerDepths(now, depth, tips),
      arm: arm[at]!,
      armChange: at > 0 ? arm[at]! - arm[at - 1]! : 0,
      contour: contour[at]!,
      roll: roll[at]!.roll,
      rollPrepare: roll[at]!.prepare,
    };
    const reason = depthReason(before, depth, line, uses, at, tips);
    if (reason) motion.reason = reason;
    if (crossing) motion.crossing = crossing;
    slices.push(motion);
    depthTravel += Math.abs(depth - before);
  }
  return { slices, findings: clearanceFindings(line, arm, crossings), depthTravel };
}

function fingerDepths(uses: readonly Use[], depth: number, tips: TipTable): FingerDepth[] {
  const fingers = new Array<FingerDepth>(uses.length);
  for (let nth = 0; nth < uses.length; nth++) {
    const { finger, key } = uses[nth]!;
    const { tip, curl } = tips.at(finger, key, depth);
    fingers[nth] = { finger, key, tip, curl };
  }
  return fingers;
}

/** A small move in although every struck finger would have been at ease without it. */
function isLean(from: number, to: number, now: readonly Use[], tips: TipTable): boolean {
  if (to <= from || to - from > LARGEST_LEAN) return false;
  for (const { finger, key, struck } of now) {
    if (struck && tips.discomfort(finger, key, from) > AT_EASE) return false;
  }
  return true;
}
