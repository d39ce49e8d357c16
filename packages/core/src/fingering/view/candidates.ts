import type { HandModel } from '../../anatomy/hand.js';
import { PerHand } from '../../anatomy/per-hand.js';
import { reach } from '../../anatomy/reach.js';
import { isBlack, keyX } from '../../keyboard/key-plan.js';
import {
  type CandidateFingers,
  FINGERS,
  isFixed,
  ordered,
  TOLERANCE,
  unordered,
  type Wanted,
} from './holds.js';

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
