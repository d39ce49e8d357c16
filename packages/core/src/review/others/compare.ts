import type { HandModel } from '../../anatomy/hand.js';
import type { PlayingContext } from '../../hands/context.js';
import type { Line } from '../../hands/line.js';
import type { GivenFingers } from '../../motion/fingers-in-use.js';
import { rounded } from '../../numeric/fixed-point.js';
import { checkFingers, checkLine } from '../../options/allowed.js';
import type { Finger } from '../../score/model.js';
import { type Judged, judge } from '../measure/judged.js';
import { type Movement, movementOf, sumOfMovements, total } from '../measure/kinds.js';

/** Two fingerings of one line, side by side. */
export interface Compared {
  /** Movement of each, mm by kind. */
  readonly first: Movement;
  /** Of the second. */
  readonly second: Movement;
  /** mm that the second takes more, below 0 where it is less. */
  readonly more: number;
  /** The same by slice of the line. */
  readonly slices: readonly {
    /** Of the first. */
    readonly first: Movement;
    /** Of the second. */
    readonly second: Movement;
  }[];
}

/**
 * The movement of two fingerings by the mechanics alone, in mm, by kind and by slice. Keys without a finger are completed so
 * that they suit the given ones best.
 *
 * @param line what a hand plays, as `readLines` gives it
 * @param a fingers by slice, such as a `LineFingering`, or `fingers` of `planDigits`
 * @param context of the line, as `readLines` gives it
 * @throws HandlineError OPTION
 */
export function compare(
  line: Line,
  hand: HandModel,
  a: GivenFingers,
  b: GivenFingers,
  context: PlayingContext = {},
): Compared {
  checkLine(line, hand);
  checkFingers(a);
  checkFingers(b);
  const [first, second] = [a, b].map((fingers) => judge(withFingers(line, fingers), hand, context));
  return compared(first!, second!, 0, line.slices.length);
}

/** The slices from `from` up to `to` of two judged fingerings of one line. */
export function compared(first: Judged, second: Judged, from: number, to: number): Compared {
  const one = movementOf(first, first.printed, from, to);
  const two = movementOf(second, second.printed, from, to);
  const [sum, other] = [sumOfMovements(one), sumOfMovements(two)];
  return {
    first: sum,
    second: other,
    more: rounded(total(other) - total(sum)),
    slices: one.map((own, nth) => ({ first: sumOfMovements([own]), second: sumOfMovements([two[nth]!]) })),
  };
}

/** The line with these digits instead of its own; null leaves a key open. */
export function withFingers(line: Line, given: GivenFingers): Line {
  return {
    ...line,
    slices: line.slices.map((slice, at) => ({
      ...slice,
      struck: slice.struck.map(({ fixed: _, ...key }, nth) => {
        const finger: Finger | null | undefined = given.slices[at]?.struck[nth];
        return finger ? { ...key, fixed: finger } : key;
      }),
    })),
  };
}
