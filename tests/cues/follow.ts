import type { DepthCue } from '#core/cues/fewest.js';
import type { ReaderStep } from '#core/cues/reader.js';

/**
 * Where a reader is at every slice, mm, by the reader's rule as the README states it: follow a cue as far as the plan goes
 * that way without a pause, otherwise stay, come back at a fresh start.
 */
export function followed(path: readonly ReaderStep[], cues: readonly DepthCue[]): readonly number[] {
  const depths: number[] = [];
  for (let at = 0; at < path.length; at++)
    depths.push(path[at]!.fresh || at === 0 ? path[at]!.planned : Number.NaN);
  for (let at = 1; at < path.length; at++) {
    if (!Number.isNaN(depths[at]!)) continue;
    const before = depths[at - 1]!;
    const active = cues.findLast(({ slice, direction }) => {
      if (slice > at) return false;
      const since = path.slice(slice + 1, at + 1);
      return !path[slice]!.fresh && since.every(({ change, fresh }) => !fresh && change * direction > 0);
    });
    const latest = cues.findLast(({ slice }) => slice <= at);
    if (!active || active !== latest) depths[at] = before;
    else if (active.direction > 0) depths[at] = Math.max(before, path[at]!.planned);
    else depths[at] = Math.min(before, path[at]!.planned);
  }
  return depths;
}

/**
 * Whether a cue is a second move the same way: the one before has the same direction, the reader has not come back from
 * where it led by more than 5 mm, and it is not forgotten: no rest and eight measures between.
 */
export function isFurther(
  path: readonly ReaderStep[],
  reader: readonly number[],
  measures: readonly number[],
  before: DepthCue | undefined,
  { slice, direction }: DepthCue,
): boolean {
  if (before?.direction !== direction) return false;
  const way = reader.slice(before.slice, slice).map((depth) => depth * direction);
  const rested = path.slice(before.slice + 1, slice).some(({ fresh }) => fresh);
  const isForgotten = rested && measures[slice]! - measures[before.slice]! > 8;
  return Math.max(...way) - way.at(-1)! <= 5 && !isForgotten;
}

/** A cue, told to a reader who is at `stay` mm. */
interface Told extends DepthCue {
  readonly path: readonly ReaderStep[];
  readonly stay: number;
  readonly tolerances: readonly number[];
}

/** The slices of the plan's move from a cue on, and those among them at which a reader who stayed would be too far off. */
function moveOf({ path, stay, slice, direction, tolerances }: Told): { move: number[]; out: number[] } {
  const move = [slice];
  for (let next = slice + 1; path[next] && !path[next]!.fresh && path[next]!.change * direction > 0; next++)
    move.push(next);
  return { move, out: move.filter((at) => Math.abs(stay - path[at]!.planned) > tolerances[at]!) };
}

/**
 * Whether a cue stands more than four notes or a second and a half before the note at which a reader who stayed would be too
 * far off, or the plan's move is over, whichever comes first.
 */
export function isEarly(told: Told): boolean {
  const { move, out } = moveOf(told);
  const served = out[0] ?? move.at(-1)!;
  const seconds = told.path.slice(told.slice + 1, served + 1).reduce((sum, step) => sum + step.seconds, 0);
  return served - told.slice > 4 || seconds > 1.5;
}

/**
 * Whether a player feels the move that a cue asks for: a reader who stayed would be too far off at that note or the next, or
 * the plan moves 4 mm or more at one of them and, in the end, 4 mm or more from the reader or out of the tolerance.
 */
export function isFelt(told: Told): boolean {
  const { path, stay, slice } = told;
  const { move, out } = moveOf(told);
  if (out.some((at) => at <= slice + 1)) return true;
  if (move.length > 1 && move.slice(0, 2).every((at) => Math.abs(path[at]!.change) < 4)) return false;
  return out.length > 0 || Math.abs(path[move.at(-1)!]!.planned - stay) >= 4;
}
