import type { SliceFingering } from '../fingering/result.js';
import type { Hand, Line, Slice } from '../hands/line.js';
import { keyX, mirrorKey } from '../keyboard/plan.js';
import type { Finger } from '../score/model.js';

/** Fingers given for a line: a `LineFingering`, or any digits in its form. */
export interface GivenFingers {
  readonly slices: readonly Pick<SliceFingering, 'struck' | 'held'>[];
}

/** A finger on a key during one slice. */
export interface Use {
  readonly finger: Finger;
  readonly key: number;
  /** False for a key held since an earlier slice. */
  readonly struck: boolean;
}

/** Fingers in use at every slice, struck ones first; keys without a finger are left out. */
export function fingersInUse(line: Line, given: GivenFingers): readonly (readonly Use[])[] {
  return line.slices.map((slice, at) => {
    const fingers = given.slices[at];
    const struck = usesOf(slice.struck, fingers?.struck, true);
    return slice.held.length === 0 ? struck : struck.concat(usesOf(slice.held, fingers?.held, false));
  });
}

function usesOf(
  keys: Slice['struck'],
  fingers: readonly (Finger | null)[] | undefined,
  struck: boolean,
): Use[] {
  const lone = keys.length === 1 ? fingers?.[0] : undefined;
  // An array that grows takes room for many more: most slices have one key.
  if (lone) return [{ finger: lone, key: keys[0]!.key, struck }];
  const uses: Use[] = [];
  for (let nth = 0; nth < keys.length; nth++) {
    const finger = fingers?.[nth];
    if (finger) uses.push({ finger, key: keys[nth]!.key, struck });
  }
  return uses;
}

/** Sideways place of a key as the right hand sees it: for the left hand on the mirrored keyboard. mm from D4. */
export function handX(hand: Hand, key: number): number {
  return keyX(hand === 'right' ? key : mirrorKey(key));
}
