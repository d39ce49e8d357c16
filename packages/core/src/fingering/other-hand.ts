import type { HandModel } from '../anatomy/hand.js';
import { reach } from '../anatomy/reach.js';
import type { Line, Slice, SliceKey } from '../hands/line.js';
import { keyX, mirrorKey } from '../keyboard/key-plan.js';
import { firstNotBefore } from '../numeric/binary-search.js';
import { toNumber } from '../numeric/fraction.js';
import type { Hand } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import { candidatesFor } from './view/candidates.js';

/** What one hand plays, as far as the other hand's advice needs it. */
export interface Neighbour {
  readonly line: Line;
  readonly hand: HandModel;
  /** End of every note of the line's part in quarter notes, by note id. */
  readonly ends: readonly number[];
}

/** A hand without a key to hold takes a note easily if it is at most this far away, mm: two octaves (from memory). */
const EASY_DISTANCE = 329;
/** mm a second at which a hand goes there without haste: an octave in a third of a second (from memory). */
const EASY_PACE = 500;

/**
 * The keys of a slice that the other hand can take easily, as few as possible, so that the rest lies within reach: MIDI
 * numbers, ascending; empty where there are none.
 *
 * @param other the other hand, with an empty line where it has nothing to play
 * @param clock seconds by quarter notes
 */
export function keysForOtherHand(
  { struck, onset }: Slice,
  side: Hand,
  hand: HandModel,
  other: Neighbour,
  clock: Clock,
): readonly number[] {
  const keys = struck.map(keyOf);
  const givable = side === 'right' ? keys : keys.toReversed();
  for (let count = 1; count < givable.length; count++) {
    const [given, kept] = [givable.slice(0, count), givable.slice(count)];
    if (!canHold(kept, hand, side, false)) continue;
    return takesEasily(given, toNumber(onset), other, clock) ? given.toSorted((a, b) => a - b) : [];
  }
  return [];
}

function takesEasily(
  given: readonly number[],
  onset: number,
  { line, hand, ends }: Neighbour,
  clock: Clock,
): boolean {
  const next = firstFrom(line, onset);
  const [before, after] = [line.slices[next - 1], line.slices[next]];
  const now = after && toNumber(after.onset) === onset ? after : undefined;
  const down = now
    ? [...now.struck, ...now.held]
    : [...(before?.struck ?? []), ...(before?.held ?? [])].filter(({ notes }) =>
        notes.some((note) => (ends[note] ?? onset) > onset),
      );
  if (down.length > 0) return canHold([...new Set([...down.map(keyOf), ...given])], hand, line.hand, true);
  if (!canHold(given, hand, line.hand, true)) return false;
  return [before, after].every((slice) => {
    if (!slice) return true;
    const seconds = Math.abs(clock.secondsAt(toNumber(slice.onset)) - clock.secondsAt(onset));
    return goesEasily(slice.struck.map(keyOf), given, seconds);
  });
}

/** True where a hand without a key to hold goes from some keys to others without haste. */
export function goesEasily(from: readonly number[], to: readonly number[], seconds: number): boolean {
  return Math.abs(middle(from) - middle(to)) <= Math.min(EASY_DISTANCE, EASY_PACE * seconds);
}

/** Index of the first slice at or after an onset, grace notes skipped; the number of slices where there is none. */
function firstFrom({ slices }: Line, onset: number): number {
  let first = firstNotBefore(slices, onset, isEarlier);
  while (slices[first]?.grace) first++;
  return first;
}

function isEarlier(slice: Slice, onset: number): boolean {
  return toNumber(slice.onset) < onset;
}

function keyOf({ key }: SliceKey): number {
  return key;
}

function middle(keys: readonly number[]): number {
  return keys.reduce((sum, key) => sum + keyX(key), 0) / keys.length;
}

/**
 * True where the hand can hold the keys together, if asked within the comfortable reach of 1-5.
 *
 * @param rolled struck one after the other, which may be wider than the hand
 */
export function canHold(
  keys: readonly number[],
  model: HandModel,
  hand: Hand,
  comfortable: boolean,
  rolled = false,
): boolean {
  const own = (hand === 'left' ? keys.map(mirrorKey) : [...keys]).sort((a, b) => a - b);
  const wide = keyX(own.at(-1)!) - keyX(own[0]!);
  if (comfortable && wide > reach(model, 1, 5).maxComfortable) return false;
  const wanted = own.map((key) => ({ key, struck: true, pedalled: false, fixed: undefined }));
  return candidatesFor(wanted, model, rolled).trouble === 'none';
}
