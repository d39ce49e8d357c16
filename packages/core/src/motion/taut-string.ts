/** Where a path may pass at one time. */
export interface Window {
  readonly time: number;
  readonly low: number;
  readonly high: number;
  /** Where the path would be if this window stood alone; NaN where it says nothing. */
  readonly rest: number;
}

/**
 * The taut string: the shortest path in time through all windows, from the first one's rest to anywhere in the last
 * one. It moves as early and as evenly as the windows allow. Times strictly ascend.
 */
export function tautPath(windows: readonly Window[]): number[] {
  const first = windows.find(rests);
  if (!first) return new Array<number>(windows.length).fill(0);
  const path = [first.rest];
  let apex = 0;
  while (apex < windows.length - 1) {
    const bend = nextBend(windows, apex, path[apex]!);
    const slope = (bend.x - path[apex]!) / (windows[bend.at]!.time - windows[apex]!.time);
    for (let at = apex + 1; at < bend.at; at++) {
      path[at] = path[apex]! + slope * (windows[at]!.time - windows[apex]!.time);
    }
    path[bend.at] = bend.x;
    apex = bend.at;
  }
  return path;
}

function rests({ rest }: Window): boolean {
  return !Number.isNaN(rest);
}

/** Where the straight line from the apex first has to bend, or the end. */
function nextBend(windows: readonly Window[], apex: number, x: number): { at: number; x: number } {
  const start = windows[apex]!.time;
  let steepest = Number.POSITIVE_INFINITY;
  let flattest = Number.NEGATIVE_INFINITY;
  let high = apex;
  let low = apex;
  for (let at = apex + 1; at < windows.length; at++) {
    const window = windows[at]!;
    const up = (window.high - x) / (window.time - start);
    const down = (window.low - x) / (window.time - start);
    if (down > steepest) return { at: high, x: windows[high]!.high };
    if (up < flattest) return { at: low, x: windows[low]!.low };
    if (up <= steepest) [steepest, high] = [up, at];
    if (down >= flattest) [flattest, low] = [down, at];
  }
  // Nothing pulls at the free end: it stays level unless a window before it lifts or lowers it.
  if (flattest > 0) return { at: low, x: windows[low]!.low };
  if (steepest < 0) return { at: high, x: windows[high]!.high };
  return { at: windows.length - 1, x };
}
