import { isFreshStart } from '../hands/fresh-start.js';
import type { Line, Slice } from '../hands/line.js';
import { isStruckThumb, isThumb, type Use } from './fingers-in-use.js';

/** mm that the wrist rises with each finger at a moderate tempo, and in all at most: from memory. */
const RISE = 3;
const TOP = 12;
/** Seconds between onsets from which a rise has its full size, and the share that is left at speed: from memory. */
const FULL_SECONDS = 0.25;
const LEAST_SHARE = 0.3;

/**
 * Wrist height above its level at the thumb, mm, at every slice: a little higher with each finger before a
 * thumb, level again when the thumb plays, in a trill, and wherever no thumb follows before the hand makes a fresh start
 * (common practice).
 */
export function planContour(line: Line, uses: readonly (readonly Use[])[]): readonly number[] {
  const heights = new Array<number>(uses.length).fill(0);
  let level = 0;
  for (let at = 0; at < uses.length; at++) {
    if (at > 0 && isFreshStart(line.slices[at]!)) level = at;
    if (!uses[at]!.some(isStruckThumb)) continue;
    const rising: number[] = [];
    for (let between = level; between < at; between++)
      if (!uses[between]!.some(isThumb)) rising.push(between);
    if (isTrill(uses, rising)) rising.length = 0;
    let height = 0;
    for (const between of rising) {
      height += Math.min(TOP / rising.length, RISE * share(line.slices[between]!));
      heights[between] = height;
    }
    level = at + 1;
  }
  return heights;
}

/** Whether two keys are struck in turn, twice each or more, somewhere on the way. */
function isTrill(uses: readonly (readonly Use[])[], rising: readonly number[]): boolean {
  for (let nth = 3; nth < rising.length; nth++) {
    const [first, second, third, fourth] = rising.slice(nth - 3, nth + 1).map((at) => uses[at]!);
    if (shareKey(first!, third!) && shareKey(second!, fourth!)) return true;
  }
  return false;
}

function shareKey(one: readonly Use[], other: readonly Use[]): boolean {
  return one.some((use) => use.struck && other.some(({ key, struck }) => struck && key === use.key));
}

/** Before the first note of a line the hand has all the time it wants. */
function share({ index, seconds }: Slice): number {
  return index === 0 ? 1 : Math.min(1, Math.max(LEAST_SHARE, seconds / FULL_SECONDS));
}
