import type { Slice } from '../../hands/line.js';

/** Notes in a row by which two neighbouring keys alternate fast: 0 fewer than 5, 1 a short trill, 2 from 8 on. */
export type Alternation = 0 | 1 | 2;
const SHORT = 5;
const LONG = 8;
/** Seconds between two onsets up to which it is a trill, and semitones between its keys: from memory. */
const TRILL_SECONDS = 0.2;
const TRILL_SEMITONES = 4;

/** By slice: how long the trill is that goes through it. */
export function alternations(slices: readonly Slice[]): readonly Alternation[] {
  const found = new Array<Alternation>(slices.length).fill(0);
  let start = 0;
  for (let at = 1; at <= slices.length; at++) {
    const going = at < slices.length && isTrillStep(slices[at - 1]!, slices[at]!);
    if (going && (at - start < 2 || slices[at]!.struck[0]!.key === slices[at - 2]!.struck[0]!.key)) continue;
    const length = at - start;
    if (length >= SHORT) found.fill(length >= LONG ? 2 : 1, start, at);
    start = going ? at - 1 : at;
  }
  return found;
}

function isTrillStep(before: Slice, slice: Slice): boolean {
  if (before.struck.length !== 1 || slice.struck.length !== 1 || slice.seconds > TRILL_SECONDS + 1e-9)
    return false;
  const interval = Math.abs(slice.struck[0]!.key - before.struck[0]!.key);
  return interval > 0 && interval <= TRILL_SEMITONES;
}
