import type { Line } from './hands/line.js';
import type { GivenFingers } from './motion/fingers-in-use.js';
import { planMotion } from './motion/motion.js';
import type { MotionPlan } from './motion/plan.js';
import { checkInput, checkReading } from './options/allowed.js';
import type { LineOptions } from './options/options.js';
import { openLines, type ReadLine } from './pipeline/printed-lines.js';
import type { Warning } from './score/errors.js';
import type { Finger, Part } from './score/model.js';

/** What `readLines` gives. */
export interface ReadLines {
  /** Right hand before left, part by part. */
  readonly lines: readonly ReadLine[];
  readonly warnings: readonly Warning[];
}

/** The motion of the digits that a score has. */
export interface PlannedLine {
  readonly partId: string;
  readonly line: Line;
  /** Fingers in print, by slice and key; null where the score has no digit. */
  readonly fingers: GivenFingers;
  readonly plan: MotionPlan;
}

/** What `planDigits` gives. */
export interface PlannedLines {
  readonly lines: readonly PlannedLine[];
  readonly warnings: readonly Warning[];
}

/**
 * What each hand plays in every piano part, right hand before left, for use with `fingerLine`, `alternatives` and
 * `planMotion`. Digits in print, our own included, are the `fixed` fingers of the keys.
 *
 * @param input MusicXML text, or the bytes of a MusicXML or .mxl file
 * @throws HandlineError where the input is not a score or exceeds a limit, or an option is bad
 */
export function readLines(input: string | Uint8Array, options: LineOptions = {}): ReadLines {
  checkInput(input);
  checkReading(options);
  const { lines, warnings } = openLines(input, options);
  return { lines: lines.map(({ read }) => read), warnings };
}

/**
 * The motion of the digits that a score has, whoever set them: depth, arm, crossings, contour and roll of every slice in
 * mm, with no new fingering. Keys without a digit are ignored: the hand moves past them.
 *
 * @throws HandlineError as `readLines`
 */
export function planDigits(input: string | Uint8Array, options: LineOptions = {}): PlannedLines {
  checkInput(input);
  checkReading(options);
  const { lines, warnings } = openLines(input, options);
  const planned = lines.map(({ read: { partId, line, hand }, part }): PlannedLine => {
    const fingers = printedFingers(line, part);
    return { partId, line, fingers, plan: planMotion(line, fingers, hand) };
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
