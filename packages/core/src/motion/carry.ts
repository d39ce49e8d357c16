import type { HandModel } from '../anatomy/hand.js';
import { reach } from '../anatomy/reach.js';
import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { Finger } from '../score/model.js';
import { handX, type Use } from './fingers-in-use.js';
import { tautPath, type Window } from './taut-string.js';

/** mm by which the hand may turn about the wrist, so that a finger lies beside its relaxed place: from memory. */
const PIVOT = 35;
/** Seconds that two onsets are taken to be apart at least: from memory. */
const LEAST_SECONDS = 0.02;

/**
 * Sideways arm position of every slice, mm from D4, where a relaxed 3 would play. Each finger in use leaves the arm a
 * window; the arm takes the shortest path through the windows in time. So its travel begins when the thumb is left and
 * is spread over the fingers until the thumb plays, whose window wants the arm clear of it (common practice).
 */
export function planCarry(line: Line, uses: readonly (readonly Use[])[], hand: HandModel): readonly number[] {
  const outwards = line.hand === 'right' ? 1 : -1;
  const arm: number[] = [];
  for (let start = 0; start < uses.length; ) {
    let end = start + 1;
    while (end < uses.length && !isFreshStart(line.slices[end]!)) end++;
    const windows: Window[] = [];
    let time = 0;
    for (let at = start; at < end; at++) {
      time += at === start ? 0 : Math.max(LEAST_SECONDS, line.slices[at]!.seconds);
      windows.push(armWindow(time, line, uses[at]!, hand));
    }
    for (const x of tautPath(windows)) arm.push(outwards * x + 0);
    start = end;
  }
  return arm;
}

/** Window of the arm and its relaxed place within it, in the right hand's sense. */
function armWindow(time: number, line: Line, uses: readonly Use[], hand: HandModel): Window {
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let rest = 0;
  for (const { finger, key } of uses) {
    const [near, far] = relaxedPlace(finger, hand);
    const x = handX(line.hand, key);
    const pivot = finger === 1 ? 0 : PIVOT;
    low = Math.max(low, x - far - pivot);
    high = Math.min(high, x - near + pivot);
    rest += (x - (near + far) / 2) / uses.length;
  }
  if (uses.length === 0) return { time, low, high, rest: Number.NaN };
  if (low > high) low = high = (low + high) / 2;
  return { time, low, high, rest: Math.min(high, Math.max(low, rest)) };
}

/** Sideways place of a finger relative to 3, relaxed, mm: least and greatest. */
function relaxedPlace(finger: Finger, hand: HandModel): readonly [number, number] {
  if (finger === 3) return [0, 0];
  const span = reach(hand, finger, 3);
  return finger < 3 ? [-span.maxRelaxed, -span.minRelaxed] : [span.minRelaxed, span.maxRelaxed];
}
