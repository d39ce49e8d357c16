import type { HandModel } from '../anatomy/hand.js';
import type { Clock } from '../score/tempo.js';
import { keysForOtherHand, type Neighbour } from './other-hand.js';
import type { LineFingering } from './result.js';

/** The usual ways out of a chord that the hand cannot reach (common practice). */
export type WayOut = 'other-hand' | 'roll' | 'omit';

/** What can be done about a slice that the hand cannot reach as written. */
export interface ReachAdvice {
  readonly slice: number;
  /** Keys that are left without a finger. */
  readonly left: readonly number[];
  /**
   * Keys that the other hand can take easily, so that the rest lies within reach; empty where there are none, and where the
   * other hand plays nothing in the piece, which is then for one hand alone.
   */
  readonly otherHand: readonly number[];
  /** Usual ways out that are open here, the one to try first in front. */
  readonly ways: readonly WayOut[];
}

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
  const isAlone = other.line.slices.length === 0;
  const otherHand = isAlone ? [] : keysForOtherHand(slice, line.hand, hand, other, clock);
  const ways: WayOut[] = otherHand.length > 0 ? ['other-hand'] : [];
  if (!slice.rolled) ways.push('roll');
  return { slice: at, left, otherHand, ways: [...ways, 'omit'] };
}
