import type { Line } from '../../hands/line.js';
import type { CueKey } from '../keys.js';
import { BETWEEN, type Wording } from '../wording.js';
import { GAP, LETTERS_A_QUICK_NOTE, lettersInto, longestLine } from './room.js';

/**
 * The runs of crossings whose texts stand in no crowd: three on three notes in a row quicker than eighths, or four on any four in a
 * row, of which the first reaches over the third. Nobody reads those, and verovio sets a third on the first now and then
 * (docs/cues.md). A run gives way with all its crossings, so that it is not told of unevenly.
 *
 * @param runs slices
 * @param crossings by slice, the cue of a crossing
 * @param others by slice, the cues that are printed in any case
 */
export function runsWithRoom(
  line: Line,
  wording: Wording,
  runs: readonly (readonly number[])[],
  crossings: readonly (CueKey | undefined)[],
  others: readonly (readonly CueKey[])[],
): readonly (readonly number[])[] {
  const runAt = new Map<number, readonly number[]>();
  for (const run of runs) for (const at of run) runAt.set(at, run);
  const hasText = (at: number): boolean => runAt.has(at) || (others[at]?.length ?? 0) > 0;
  const isCrowd = (first: number): boolean => {
    if (!hasText(first) || !hasText(first + 1) || !hasText(first + 2)) return false;
    const [into, on] = [lettersInto(line, first + 1), lettersInto(line, first + 2)];
    const areQuick = Math.max(into, on) <= LETTERS_A_QUICK_NOTE;
    if (!areQuick && !hasText(first - 1) && !hasText(first + 3)) return false;
    const own = runAt.has(first) ? [crossings[first]!, ...others[first]!] : others[first]!;
    return longestLine(own.map((key) => wording[key]).join(BETWEEN)) + GAP > into + on;
  };
  for (let first = 0; first + 2 < others.length; first++) {
    while (isCrowd(first)) {
      const run = runAt.get(first + 1) ?? runAt.get(first) ?? runAt.get(first + 2);
      if (run === undefined) break;
      for (const at of run) runAt.delete(at);
    }
  }
  return runs.filter(([at]) => runAt.has(at!));
}
