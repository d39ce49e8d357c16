import type { HandModel } from '../../anatomy/hand.js';
import { reach } from '../../anatomy/reach.js';
import { isBlack, keyX } from '../../keyboard/key-plan.js';
import type { Finger } from '../../score/model.js';

/** A key to be fingered, in right-hand coordinates. */
export interface Wanted {
  readonly key: number;
  readonly struck: boolean;
  readonly pedalled: boolean;
  readonly fixed: Finger | undefined;
}

/** One possible fingering of a slice: a finger for every kept key, from the lowest key up. */
export interface CandidateFingers {
  readonly fingers: readonly Finger[];
  /** The fingers as the digits of one number, by which candidates are compared quickly. */
  readonly name: number;
}

export const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
/** mm by which a stretch may exceed the reach, since fingertips may land off the keys' centres. */
export const TOLERANCE = 5;

/** True where the file or the caller gives a digit. */
export function isFixed({ fixed }: Wanted): boolean {
  return fixed !== undefined;
}

/** Every way of holding these keys together: fingers ascend with the keys, every pair within its reach. */
export function ordered(wanted: readonly Wanted[], hand: HandModel, rolled = false): CandidateFingers[] {
  if (wanted.length > FINGERS.length + 1) return [];
  const found = enumerate(wanted, hand, rolled ? fitsRolled : fits);
  // The thumb takes two keys only where no other finger is left for one of them (common practice).
  const plain = found.filter(isByOneKeyEach);
  return plain.length > 0 ? plain : found;
}

function isByOneKeyEach({ fingers }: CandidateFingers): boolean {
  return fingers[0] !== fingers[1];
}

/** Whether a finger may take `wanted[at]` while the lower keys have theirs. */
type Allowed = (
  wanted: readonly Wanted[],
  fingers: readonly Finger[],
  at: number,
  finger: Finger,
  hand: HandModel,
) => boolean;

/**
 * All choices of a finger for every key, given digits kept, built from the lowest key up as far as `allowed` permits.
 *
 * @param fingers those of the lower keys
 * @param found the choices so far
 */
function enumerate(
  wanted: readonly Wanted[],
  hand: HandModel,
  allowed: Allowed,
  fingers: Finger[] = [],
  found: CandidateFingers[] = [],
): CandidateFingers[] {
  const at = fingers.length;
  const next = wanted[at];
  if (!next) {
    found.push({ fingers: [...fingers], name: Number(fingers.join('')) });
    return found;
  }
  for (const finger of next.fixed === undefined ? FINGERS : [next.fixed]) {
    if (!allowed(wanted, fingers, at, finger, hand)) continue;
    fingers.push(finger);
    enumerate(wanted, hand, allowed, fingers, found);
    fingers.pop();
  }
  return found;
}

const fitsRolled: Allowed = (wanted, fingers, at, finger, hand) =>
  fits(wanted, fingers, at, finger, hand, true);

function fits(
  wanted: readonly Wanted[],
  fingers: readonly Finger[],
  at: number,
  finger: Finger,
  hand: HandModel,
  rolled = false,
): boolean {
  for (let lower = 0; lower < at; lower++) {
    const other = fingers[lower]!;
    const from = wanted[lower]!.key;
    const to = wanted[at]!.key;
    if (other === finger) {
      if (finger !== 1 || lower !== at - 1 || at > 1 || !thumbTakesBoth(from, to)) return false;
      continue;
    }
    if (other > finger) return false;
    if (rolled && lower < at - 1) continue;
    const { minPractical, maxPractical } = reach(hand, other, finger);
    const mm = keyX(to) - keyX(from);
    const most = rolled ? maxPractical * ROLL : maxPractical;
    if (mm < minPractical - TOLERANCE - FOLD || mm > most + TOLERANCE) return false;
  }
  return true;
}

/** How much further than two fingers reach their keys may lie apart in a roll, since the hand goes along: from memory. */
const ROLL = 1.4;

/** mm by which fingers may come closer than the published minima: with a black key between, one semitone closer. */
const FOLD = 8;

/** Adjacent keys of one colour: the thumb lies across the crack (common practice). */
function thumbTakesBoth(low: number, high: number): boolean {
  return high - low <= 2 && high > low && isBlack(low) === isBlack(high);
}

/** All candidates that honour the given digits and use no other finger twice, in any order and at any distance. */
export function unordered(wanted: readonly Wanted[], hand: HandModel): CandidateFingers[] {
  return wanted.length > FINGERS.length ? [] : enumerate(wanted, hand, isOnce);
}

const isOnce: Allowed = (wanted, fingers, at, finger) =>
  isFixed(wanted[at]!) || (!fingers.includes(finger) && !givenLater(wanted, at, finger));

function givenLater(wanted: readonly Wanted[], at: number, finger: Finger): boolean {
  return wanted.some((w, index) => index > at && w.fixed === finger);
}
