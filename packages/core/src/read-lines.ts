import type { Line } from './hands/line.js';
import type { GivenFingers } from './motion/fingers-in-use.js';
import { planMotion } from './motion/motion.js';
import type { MotionPlan } from './motion/plan.js';
import { checkReading, inputOf } from './options/allowed.js';
import type { Input, LineOptions } from './options/options.js';
import { openLines, type ReadLine } from './pipeline/printed-lines.js';
import type { Warning } from './score/errors.js';
import type { Finger, Part } from './score/model.js';

/** What `readLines` gives. */
export interface ReadLines {
  /** Right hand before left, part by part. */
  readonly lines: readonly ReadLine[];
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** The motion of the digits that a score has. */
export interface PlannedLine {
  /** Id of the part. */
  readonly partId: string;
  /** What the hand plays, slice by slice. */
  readonly line: Line;
  /** Fingers in print, by slice and key; null where the score has no digit. */
  readonly fingers: GivenFingers;
  /** The motion of every slice. */
  readonly plan: MotionPlan;
}

/** What `planDigits` gives. */
export interface PlannedLines {
  /** Right hand before left, part by part. */
  readonly lines: readonly PlannedLine[];
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/**
 * What each hand plays in every piano part, right hand before left, for use with `fingerLine`, `alternatives` and
 * `planMotion`. Digits in print, our own included, are the `fixed` fingers of the keys.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file
 * @throws HandlineError where the input is not a score or exceeds a limit, or an option is bad
 */
export function readLines(input: Input, options: LineOptions = {}): ReadLines {
  const given = inputOf(input);
  checkReading(options);
  const { lines, warnings } = openLines(given, options);
  return { lines: lines.map(({ read }) => read), warnings };
}

/**
 * The motion of the digits that a score has, whoever set them: depth, arm, crossings, contour and roll of every slice in
 * mm, with no new fingering. Keys without a digit are ignored: the hand moves past them.
 *
 * @throws HandlineError as `readLines`
 */
export function planDigits(input: Input, options: LineOptions = {}): PlannedLines {
  const given = inputOf(input);
  checkReading(options);
  const { lines, warnings } = openLines(given, options);
  const planned = lines.map(({ read: { partId, line, hand, context }, part }): PlannedLine => {
    const fingers = printedFingers(line, part);
    const plan = planMotion(line, fingers, hand, context);
    return { partId, line, fingers, plan };
  });
  return { lines: planned, warnings };
}

/** Digits of the keys; a held key has the finger that took it over, where one is printed. */
function printedFingers(line: Line, part: Part): GivenFingers {
  const substituted = (notes: readonly number[]): Finger | undefined =>
    notes.flatMap((note) => part.notes[note]!.digits).find(({ substitution }) => substitution)?.finger;
  const holders = new Map<number, Finger | null>();
  const slices = line.slices.map((slice) => {
    const held = slice.held.map(({ key, notes }) => substituted(notes) ?? holders.get(key) ?? null);
    const struck = slice.struck.map(({ fixed }) => fixed ?? null);
    slice.struck.forEach(({ key }, nth) => {
      holders.set(key, struck[nth]!);
    });
    return { struck, held };
  });
  return { slices };
}
