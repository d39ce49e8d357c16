import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import { isStruck, isThumb, type Use } from './fingers-in-use.js';

/**
 * Forearm roll by finger in fifths, which add up exactly in any order: -5 fully towards the thumb ... 5 towards 5. From
 * memory.
 */
const FIFTHS = [-5, -2, 0, 2, 5] as const;
/** A turn in the direction of the one before it and larger than this, of 2 in all, has no swing to come from: from memory. */
const LARGE_TURN = 0.7;

export interface Roll {
  readonly roll: number;
  readonly prepare: boolean;
}

/**
 * Roll of the forearm towards the finger that plays, the mean of a chord's. A turn to the thumb or away from it, and
 * any turn against the one before it, swings back by itself (common practice); a large turn on in the same direction wants a
 * fresh preparation.
 */
export function planRoll(line: Line, uses: readonly (readonly Use[])[]): readonly Roll[] {
  let last = 0;
  let lastTurn = 0;
  const rolls: Roll[] = [];
  for (let at = 0; at < uses.length; at++) {
    const playing = uses[at]!.filter(isStruck);
    if (playing.length === 0) {
      rolls.push({ roll: last, prepare: false });
      continue;
    }
    const roll = meanRoll(playing);
    const turn = roll - last;
    const fresh = isFreshStart(line.slices[at]!);
    const thumb = playing.some(isThumb) || uses[at - 1]?.some(isThumb);
    const onwards = turn * lastTurn > 0 && Math.abs(turn) > LARGE_TURN && !thumb && !repeats(uses, at);
    last = roll;
    if (turn !== 0) lastTurn = turn;
    rolls.push({ roll, prepare: !fresh && onwards });
  }
  return rolls;
}

/** Whether the same keys are struck again: fingers that take turns on them need no swing. */
function repeats(uses: readonly (readonly Use[])[], at: number): boolean {
  const before = uses[at - 1] ?? [];
  return uses[at]!.every(({ key, struck }) => !struck || before.some((own) => own.key === key));
}

function meanRoll(uses: readonly Use[]): number {
  let fifths = 0;
  for (const { finger } of uses) fifths += FIFTHS[finger - 1]!;
  return fifths / (5 * uses.length);
}
