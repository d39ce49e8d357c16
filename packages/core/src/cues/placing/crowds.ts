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
  const told = new Told(line, wording, runs, crossings, others);
  for (let first = 0; first + 2 < others.length; first++) while (told.isCrowd(first) && told.giveWay(first));
  return runs.filter(([at]) => told.runAt.has(at!));
}

/** What is told of at all slices. */
class Told {
  /** The runs of crossings that have not given way, by slice. */
  readonly runAt = new Map<number, readonly number[]>();

  constructor(
    private readonly line: Line,
    private readonly wording: Wording,
    runs: readonly (readonly number[])[],
    private readonly crossings: readonly (CueKey | undefined)[],
    private readonly others: readonly (readonly CueKey[])[],
  ) {
    for (const run of runs) for (const at of run) this.runAt.set(at, run);
  }

  /** Whether the texts of a slice and of those that follow it stand in a crowd. */
  isCrowd(first: number): boolean {
    const { line, wording, crossings, others } = this;
    if (!this.#hasText(first) || !this.#hasText(first + 1) || !this.#hasText(first + 2)) return false;
    const [into, on] = [lettersInto(line, first + 1), lettersInto(line, first + 2)];
    const areQuick = Math.max(into, on) <= LETTERS_A_QUICK_NOTE;
    if (!areQuick && !this.#hasText(first - 1) && !this.#hasText(first + 3)) return false;
    const own = this.runAt.has(first) ? [crossings[first]!, ...others[first]!] : others[first]!;
    return longestLine(own.map((key) => wording[key]).join(BETWEEN)) + GAP > into + on;
  }

  /** Takes a run out of a crowd; false where there is none. */
  giveWay(first: number): boolean {
    const run = this.runAt.get(first + 1) ?? this.runAt.get(first) ?? this.runAt.get(first + 2);
    if (run === undefined) return false;
    for (const at of run) this.runAt.delete(at);
    return true;
  }

  #hasText(at: number): boolean {
    return this.runAt.has(at) || (this.others[at]?.length ?? 0) > 0;
  }
}
