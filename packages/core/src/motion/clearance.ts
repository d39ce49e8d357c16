import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { Crossing, MotionFinding } from './plan.js';

/**
 * Sideways distance in mm that the arm may still have to travel when the thumb passes, and its speed in mm a second:
 * what a common arpeggio asks for in sixteenth notes at 120 quarter notes a minute, from memory.
 */
const GREATEST_DISTANCE = 85;
const GREATEST_SPEED = 700;
/** Seconds that two onsets are taken to be apart at least. */
const LEAST_SECONDS = 1e-3;

/**
 * Whether the arm is clear of the thumb in time. The thumb trails behind the playing finger, carried by the arm, so
 * the distance that the arm has left at the last finger before the thumb is also the thumb's own distance to its key.
 */
export function clearanceFindings(
  line: Line,
  arm: readonly number[],
  crossings: readonly (Crossing | undefined)[],
): readonly MotionFinding[] {
  const findings: MotionFinding[] = [];
  for (let slice = 0; slice < crossings.length; slice++) {
    const crossing = crossings[slice];
    if (crossing?.kind !== 'thumb-passing' || isFreshStart(line.slices[slice]!)) continue;
    const distance = Math.abs(arm[slice]! - arm[slice - 1]!);
    const speed = distance / Math.max(LEAST_SECONDS, line.slices[slice]!.seconds);
    const fault = distance > GREATEST_DISTANCE ? 'too far' : speed > GREATEST_SPEED ? 'too fast' : undefined;
    if (!fault) continue;
    const missing = `the arm has ${Math.round(distance)} mm left to be clear of the thumb after ${crossing.from}`;
    const pace = fault === 'too fast' ? `, ${Math.round(speed)} mm a second` : '';
    findings.push({ slice, message: `${fault}: ${missing}${pace}` });
  }
  return findings;
}
