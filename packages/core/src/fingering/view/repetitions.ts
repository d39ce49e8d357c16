import type { Slice } from '../../hands/line.js';

/** Keystrokes a second that one finger repeats at ease: from memory. */
export const AT_EASE = 4;
/** Strokes in a row from which on a key is repeated rather than struck twice. */
const STROKES = 3;
/** Seconds between two onsets up to which it is fast. */
const SECONDS = 1 / AT_EASE;

/** By slice: whether the one key struck is the one before, in a row of three fast strokes or more. */
export function repetitions(slices: readonly Slice[]): readonly boolean[] {
  const found = new Array<boolean>(slices.length).fill(false);
  let start = 0;
  for (let at = 1; at <= slices.length; at++) {
    if (at < slices.length && isRepetition(slices[at - 1]!, slices[at]!)) continue;
    if (at - start >= STROKES) found.fill(true, start + 1, at);
    start = at;
  }
  return found;
}

function isRepetition(before: Slice, { struck, seconds }: Slice): boolean {
  if (before.struck.length !== 1 || struck.length !== 1 || seconds > SECONDS + 1e-9) return false;
  return before.struck[0]!.key === struck[0]!.key;
}
