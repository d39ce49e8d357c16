import type { HandModel } from '../anatomy/hand.js';
import { reach } from '../anatomy/reach.js';
import type { Line, Slice } from '../hands/line.js';
import { keyX, mirrorKey } from '../keyboard/key-plan.js';
import { firstNotBefore } from '../numeric/binary-search.js';
import { toNumber } from '../numeric/fraction.js';
import type { Hand } from '../score/model.js';
import type { Clock } from '../score/tempo.js';
import type { LineFingering } from './result.js';
import { candidatesFor } from './view/candidates.js';

/** The usual ways out of a chord that the hand cannot reach (common practice). */
export type WayOut = 'other-hand' | 'roll' | 'omit';

/** What can be done about a slice that the hand cannot reach as written. */
export interface ReachAdvice {
  readonly slice: number;
  /** Keys that are left without a finger. */
  readonly left: readonly number[];
  /** Keys that the other hand can take easily, so that the rest lies within reach; empty where there are none. */
  readonly otherHand: readonly number[];
  /** Usual ways out that are open here, the one to try first in front. */
  readonly ways: readonly WayOut[];
}

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
 * @param clock seconds by quarter notes
 * @param other the other hand, with an empty line where it has nothing to play
 */
export function reachAdvice(
  { line, slices }: LineFingering,
  at: number,
  hand: HandModel,
  other: Neighbour,
  clock: Clock,
): ReachAdvice {
  const slice = line.slices[at]!;
  const left = slice.struck.filter((_, nth) => slices[at]!.struck[nth] === null).map(({ key }) => key);
  const keys = slice.struck.map(({ key }) => key);
  const givable = line.hand === 'right' ? keys : keys.toReversed();
  let otherHand: readonly number[] = [];
  for (let count = 1; count < givable.length && otherHand.length === 0; count++) {
    const [given, kept] = [givable.slice(0, count), givable.slice(count)];
    if (!canHold(kept, hand, line.hand, false)) continue;
    if (takesEasily(given, toNumber(slice.onset), other, clock)) otherHand = given.toSorted((a, b) => a - b);
    break;
  }
  const ways: WayOut[] = otherHand.length > 0 ? ['other-hand'] : [];
  if (!slice.rolled) ways.push('roll');
  return { slice: at, left, otherHand, ways: [...ways, 'omit'] };
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
  if (down.length > 0)
    return canHold([...new Set([...down.map(({ key }) => key), ...given])], hand, line.hand, true);
  if (!canHold(given, hand, line.hand, true)) return false;
  return [before, after].every((slice) => {
    if (!slice) return true;
    const distance = Math.abs(middle(slice.struck.map(({ key }) => key)) - middle(given));
    const seconds = Math.abs(clock.secondsAt(toNumber(slice.onset)) - clock.secondsAt(onset));
    return distance <= Math.min(EASY_DISTANCE, EASY_PACE * seconds);
  });
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

function middle(keys: readonly number[]): number {
  return keys.reduce((sum, key) => sum + keyX(key), 0) / keys.length;
}

/** True where the hand can hold the keys together, if asked within the comfortable reach of 1-5. */
function canHold(keys: readonly number[], model: HandModel, hand: Hand, comfortable: boolean): boolean {
  const own = (hand === 'left' ? keys.map(mirrorKey) : [...keys]).sort((a, b) => a - b);
  const wide = keyX(own.at(-1)!) - keyX(own[0]!);
  if (comfortable && wide > reach(model, 1, 5).maxComfortable) return false;
  const wanted = own.map((key) => ({ key, struck: true, pedalled: false, fixed: undefined }));
  return candidatesFor(wanted, model).trouble === 'none';
}
