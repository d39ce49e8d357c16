import type { SliceFingering } from '../fingering/result.js';
import type { Line, Slice } from '../hands/line.js';
import { keyX, mirrorKey } from '../keyboard/key-plan.js';
import type { Finger, Hand } from '../score/model.js';

/** Fingers given for a line: a `LineFingering`, or any digits in its form. */
export interface GivenFingers {
  /** Of every slice of the line, in its order. */
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
  const uses: (readonly Use[])[] = [];
  for (let at = 0; at < line.slices.length; at++) {
    const { struck, held } = line.slices[at]!;
    const fingers = given.slices[at];
    const striking = usesOf(struck, fingers?.struck, true);
    uses.push(held.length === 0 ? striking : striking.concat(usesOf(held, fingers?.held, false)));
  }
  return uses;
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

export function isStruck({ struck }: Use): boolean {
  return struck;
}

export function isThumb({ finger }: Use): boolean {
  return finger === 1;
}

export function isStruckThumb({ finger, struck }: Use): boolean {
  return finger === 1 && struck;
}

/** Sideways place of a key as the right hand sees it: for the left hand on the mirrored keyboard. mm from D4. */
export function handX(hand: Hand, key: number): number {
  return keyX(hand === 'right' ? key : mirrorKey(key));
}
