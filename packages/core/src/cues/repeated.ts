import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import type { FingerDepth, MotionPlan, SliceMotion } from '../motion/plan.js';
import type { CueKey } from './keys.js';
import type { LayerCues } from './layer-cues.js';

/** Measures within which what comes back is not cued again: from memory. */
const REMEMBERED_MEASURES = 2;

/** What a player has been told of, by name: it is not told again as long as it keeps coming back. */
export class Remembered {
  readonly #measures = new Map<string, number>();

  /** Whether this came within the last measures; notes that it comes now. */
  comesBack(id: string, measure: number): boolean {
    const last = this.#measures.get(id);
    this.#measures.set(id, measure);
    return last !== undefined && measure - last <= REMEMBERED_MEASURES;
  }
}

/** Cues of which one says that the other has ended: neither is told twice in a row. */
const IN_TURN: readonly CueKey[] = ['wrist-rises', 'wrist-level', 'turn-thumb', 'turn-fifth'];

/**
 * Leaves out the same cue for the same move, and what would then be said twice in a row, as that the wrist is level where
 * its rise is left out.
 */
export function withoutRepeated(line: Line, plan: MotionPlan, cues: LayerCues): LayerCues {
  const told = new Remembered();
  let last: CueKey | undefined = 'wrist-level';
  return cues.map((key, at): CueKey | undefined => {
    if (isFreshStart(line.slices[at]!)) last = 'wrist-level';
    if (key === undefined) return undefined;
    const id = `${key} ${moveInto(plan, at)}`;
    const isKnown = told.comesBack(id, line.slices[at]!.measure);
    const endsRise = key === 'wrist-level' && last === 'wrist-rises';
    if ((isKnown && !endsRise) || (key === last && IN_TURN.includes(key))) return undefined;
    last = key;
    return key;
  });
}

/** The keys under the fingers before and at a slice, as text. */
export function moveInto({ slices }: MotionPlan, at: number): string {
  return `from ${grip(slices[at - 1])} to ${grip(slices[at])}`;
}

function grip(slice: SliceMotion | undefined): string {
  return slice ? slice.fingers.map(fingerOnKey).join() : 'the start';
}

function fingerOnKey({ finger, key }: FingerDepth): string {
  return `${finger}:${key}`;
}
