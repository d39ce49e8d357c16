import type { HandModel } from '../../anatomy/hand.js';
import { PerHand } from '../../anatomy/per-hand.js';
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

export interface CandidateSet {
  /** Indices of the wanted keys that the hand plays; the others are beyond its reach. */
  readonly kept: readonly number[];
  readonly candidates: readonly CandidateFingers[];
  readonly trouble: 'none' | 'reach' | 'digits';
}

/** The candidates with the keys that they play, shared by all slices with the same keys. */
export interface Kept extends CandidateSet {
  readonly keys: readonly number[];
  readonly x: readonly number[];
  readonly black: readonly boolean[];
  readonly struck: readonly boolean[];
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
/** mm by which a stretch may exceed the reach, since fingertips may land off the keys' centres. */
const TOLERANCE = 5;

/** mm below which two distances count as equal. */
const ROUNDING = 1e-6;

const memo = new PerHand(() => new Map<string, Kept>());

/**
 * Every fingering with which the hand can hold these keys: fingers ascend with the keys, every pair lies within its practical
 * reach, and the thumb may take two adjacent keys of one colour. Where none exists, held keys are let go, pedalled
 * ones first; then given digits are kept in whatever order they are, if others would reach the keys; at last the largest playable subset of the struck
 * keys remains, with the highest keys where there is a choice. A rolled chord may be wider than the hand: only
 * neighbouring keys must lie within reach of each other, and the hand moves on (common practice).
 */
export function candidatesFor(wanted: readonly Wanted[], hand: HandModel, rolled = false): Kept {
  const known = memo.of(hand);
  let id = rolled ? 'rolled' : '';
  for (const { key, struck, pedalled, fixed } of wanted) {
    id += `${key}${struck ? 's' : pedalled ? 'p' : 'h'}${fixed ?? ''} `;
  }
  let result = known.get(id);
  if (!result) {
    const { kept, candidates, trouble } = search(wanted, hand, rolled);
    const taken: Wanted[] = [];
    for (const at of kept) taken.push(wanted[at]!);
    const keys = taken.map(keyOf);
    const struck = taken.map(isStruck);
    result = { kept, candidates, trouble, keys, x: keys.map(keyX), black: keys.map(isBlack), struck };
    known.set(id, result);
  }
  return result;
}

function keyOf({ key }: Wanted): number {
  return key;
}

function isStruck({ struck }: Wanted): boolean {
  return struck;
}

/** True where the file or the caller gives a digit. */
export function isFixed({ fixed }: Wanted): boolean {
  return fixed !== undefined;
}

function search(wanted: readonly Wanted[], hand: HandModel, rolled: boolean): CandidateSet {
  const all = [...wanted.keys()];
  const playable = ordered(wanted, hand);
  if (playable.length > 0) return { kept: all, candidates: playable, trouble: 'none' };
  const withoutHeld = dropHeld(wanted, hand);
  if (withoutHeld) return withoutHeld;
  if (rolled) {
    const kept = all.filter((at) => wanted[at]!.struck);
    const struck = kept.map((at) => wanted[at]!);
    const spread = ordered(struck, hand, true);
    if (spread.length > 0) return { kept, candidates: spread, trouble: 'none' };
  }
  // Digits are in the way only where the hand could hold the keys with others.
  if (wanted.some(isFixed) && isWithinReach(wanted.map(free), hand, rolled)) {
    const odd = unordered(wanted, hand);
    if (odd.length > 0) return { kept: all, candidates: odd, trouble: 'digits' };
  }
  return largestSubset(wanted, hand);
}

function free(wanted: Wanted): Wanted {
  return { ...wanted, fixed: undefined };
}

function isWithinReach(wanted: readonly Wanted[], hand: HandModel, rolled: boolean): boolean {
  if (ordered(wanted, hand).length > 0 || dropHeld(wanted, hand) !== undefined) return true;
  return rolled && ordered(wanted.filter(isStruck), hand, true).length > 0;
}

/** Lets go of as few held keys as necessary, pedalled ones first, then those furthest from the struck ones. */
function dropHeld(wanted: readonly Wanted[], hand: HandModel): CandidateSet | undefined {
  const struck = wanted.filter(isStruck);
  if (struck.length === 0 || struck.length === wanted.length) return undefined;
  const centre = struck.reduce((sum, w) => sum + keyX(w.key), 0) / struck.length;
  // Rounded, so that keys at equal distances compare as equal in every octave.
  const away = ({ key }: Wanted): number => Math.round(Math.abs(keyX(key) - centre) / ROUNDING);
  const order = wanted
    .map((w, at) => ({ at, w }))
    .filter(({ w }) => !w.struck)
    .sort((a, b) => Number(b.w.pedalled) - Number(a.w.pedalled) || away(b.w) - away(a.w) || a.at - b.at);
  const dropped = new Set<number>();
  for (const { at } of order) {
    dropped.add(at);
    const kept = wanted.map((_, index) => index).filter((index) => !dropped.has(index));
    const found = ordered(
      kept.map((index) => wanted[index]!),
      hand,
    );
    if (found.length > 0) return { kept, candidates: found, trouble: 'none' };
  }
  return undefined;
}

function largestSubset(wanted: readonly Wanted[], hand: HandModel): CandidateSet {
  const struck = wanted.map((_, at) => at).filter((at) => wanted[at]!.struck);
  const widest = reach(hand, 1, 5).maxPractical + TOLERANCE;
  const near = (low: number, high: number) => keyX(wanted[high]!.key) - keyX(wanted[low]!.key) <= widest;
  for (let size = Math.min(struck.length - 1, FINGERS.length + 1); size > 0; size--) {
    for (const kept of subsets(struck, size, near)) {
      const given = kept.map((at) => wanted[at]!);
      const honoured = ordered(given, hand);
      const found = honoured.length > 0 ? honoured : ordered(given.map(free), hand);
      if (found.length > 0) return { kept, candidates: inTheChord(found, kept, struck), trouble: 'reach' };
    }
  }
  return { kept: [], candidates: [{ fingers: [], name: 0 }], trouble: 'reach' };
}

/** Only those that leave the outer fingers on the outer keys, as if the chord were there, where there are any. */
function inTheChord(
  found: readonly CandidateFingers[],
  kept: readonly number[],
  struck: readonly number[],
): readonly CandidateFingers[] {
  const first = kept[0] === struck[0] ? 1 : undefined;
  const last = kept.at(-1) === struck.at(-1) ? 5 : undefined;
  const framed = found.filter(
    ({ fingers }) =>
      (first === undefined || fingers[0] === first) && (last === undefined || fingers.at(-1) === last),
  );
  return framed.length > 0 ? framed : found;
}

/** Subsets of a size whose lowest and highest members are near each other, those with the highest members first. */
function* subsets(
  from: readonly number[],
  size: number,
  near: (low: number, high: number) => boolean,
  top?: number,
): Generator<number[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let last = from.length - 1; last >= size - 1; last--) {
    const member = from[last]!;
    if (top !== undefined && !near(member, top)) return;
    for (const rest of subsets(from.slice(0, last), size - 1, near, top ?? member)) yield [...rest, member];
  }
}

function ordered(wanted: readonly Wanted[], hand: HandModel, rolled = false): CandidateFingers[] {
  if (wanted.length > FINGERS.length + 1) return [];
  const found = enumerate(wanted, hand, rolled ? fitsRolled : fits);
  // The thumb takes two keys only where no other finger is left for one of them (common practice).
  const plain = found.filter(({ fingers }) => fingers[0] !== fingers[1]);
  return plain.length > 0 ? plain : found;
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
    const [from, to] = [wanted[lower]!.key, wanted[at]!.key];
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
function unordered(wanted: readonly Wanted[], hand: HandModel): CandidateFingers[] {
  return wanted.length > FINGERS.length ? [] : enumerate(wanted, hand, isOnce);
}

const isOnce: Allowed = (wanted, fingers, at, finger) =>
  isFixed(wanted[at]!) || (!fingers.includes(finger) && !givenLater(wanted, at, finger));

function givenLater(wanted: readonly Wanted[], at: number, finger: Finger): boolean {
  return wanted.some((w, index) => index > at && w.fixed === finger);
}
