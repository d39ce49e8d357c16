import type { SliceView } from '#core/fingering/view/view.js';

/** Seconds up to which a key is struck again fast. */
const REPEATED = 0.25;

/** Whether a slice strikes the one key that the slice before struck, fast. */
function strikesAgain(views: readonly SliceView[], at: number): boolean {
  const [before, slice] = [views[at - 1]?.slice, views[at]?.slice];
  if (before?.struck.length !== 1 || slice?.struck.length !== 1 || slice.seconds > REPEATED + 1e-9)
    return false;
  return slice.struck[0]!.key === before.struck[0]!.key;
}

/** Strokes from the beat, or from a key's first one, to a stroke of a key that is struck three times fast or more; else 0. */
export function stroke(views: readonly SliceView[], at: number): number {
  let first = at;
  while (strikesAgain(views, first)) first--;
  let last = at;
  while (strikesAgain(views, last + 1)) last++;
  if (last - first < 2) return 0;
  let beat = at;
  while (beat > first && !views[beat]!.onBeat) beat--;
  return at - beat;
}
