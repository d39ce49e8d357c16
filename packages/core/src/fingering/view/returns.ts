import { isFreeToGo } from '../../hands/fresh-start.js';
import type { Slice } from '../../hands/line.js';

/**
 * By slice: whether the next note goes back, without a break, to the one key struck before.
 *
 * @param cuts slices that are never played right after the slice before them
 */
export function returns(slices: readonly Slice[], cuts: ReadonlySet<number>): readonly boolean[] {
  const found: boolean[] = [];
  for (let at = 0; at < slices.length; at++) found.push(goesBack(slices, at, cuts));
  return found;
}

function goesBack(slices: readonly Slice[], at: number, cuts: ReadonlySet<number>): boolean {
  const [before, after] = [slices[at - 1], slices[at + 1]];
  if (before?.struck.length !== 1 || after?.struck.length !== 1 || cuts.has(at + 1)) return false;
  if (isFreeToGo(after.free, after.phraseStart, after.seconds)) return false;
  return before.struck[0]!.key === after.struck[0]!.key;
}
