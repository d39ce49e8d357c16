import { isFreeToGo } from '../../hands/fresh-start.js';
import type { Slice } from '../../hands/line.js';

/**
 * By slice: whether the next note goes back, without a break, to the one key struck before.
 *
 * @param cuts slices that are never played right after the slice before them
 */
export function returns(slices: readonly Slice[], cuts: ReadonlySet<number>): readonly boolean[] {
  return slices.map((_, at) => {
    const [before, after] = [slices[at - 1], slices[at + 1]];
    if (before?.struck.length !== 1 || after?.struck.length !== 1 || cuts.has(at + 1)) return false;
    if (isFreeToGo(after.free, after.phraseStart, after.seconds)) return false;
    return before.struck[0]!.key === after.struck[0]!.key;
  });
}
