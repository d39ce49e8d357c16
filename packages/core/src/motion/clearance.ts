import { startsAnew } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { Crossing, MotionFinding } from './plan.js';

/**
 * Sideways way in mm that arm and thumb may still have to go when the thumb passes, and its speed in mm a second: what
 * a common arpeggio asks for in sixteenth notes at 120 a minute, from memory.
 */
const SHORT_WAY = 85;
const GREATEST_SPEED = 700;

/**
 * Whether the arm is clear of the thumb in time. The thumb trails behind the playing finger, carried by the arm, so
 * the way that the arm has left at the last finger before the thumb is also the thumb's own way to its key.
 */
export function clearanceFindings(
  line: Line,
  arm: readonly number[],
  crossings: readonly (Crossing | undefined)[],
): readonly MotionFinding[] {
  const findings: MotionFinding[] = [];
  for (let slice = 0; slice < crossings.length; slice++) {
    const crossing = crossings[slice];
    if (crossing?.kind !== 'thumb-passing' || startsAnew(line.slices[slice]!)) continue;
    const way = Math.abs(arm[slice]! - arm[slice - 1]!);
    const speed = way / Math.max(1e-3, line.slices[slice]!.seconds);
    const fault = way > SHORT_WAY ? 'too far' : speed > GREATEST_SPEED ? 'too fast' : undefined;
    if (!fault) continue;
    const missing = `the arm has ${Math.round(way)} mm left to be clear of the thumb after ${crossing.from}`;
    const pace = fault === 'too fast' ? `, ${Math.round(speed)} mm a second` : '';
    findings.push({ slice, message: `${fault}: ${missing}${pace}` });
  }
  return findings;
}
