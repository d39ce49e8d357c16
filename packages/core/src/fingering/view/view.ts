import type { HandModel } from '../../anatomy/hand.js';
import { isFreeToGo } from '../../hands/fresh-start.js';
import type { Line, Slice, SliceKey } from '../../hands/line.js';
import { mirrorKey } from '../../keyboard/key-plan.js';
import type { Finger, Hand } from '../../score/model.js';
import { type Alternation, alternations } from './alternations.js';
import { candidatesFor, type Kept } from './candidates.js';
import { HeldKeys } from './held-keys.js';
import { type CandidateFingers, isFixed, type Wanted } from './holds.js';
import { repetitions } from './repetitions.js';
import { returns } from './returns.js';

/**
 * A slice as the right hand sees it: the left hand's keys are mirrored about D4, so that every rule is written once and
 * both hands get the same digits for mirrored music by construction.
 */
export interface SliceView {
  readonly index: number;
  /** Keys down, struck and held, ascending on the (mirrored) keyboard. */
  readonly keys: readonly number[];
  /** mm, sideways, of the keys' centres (`keyX`). */
  readonly x: readonly number[];
  readonly black: readonly boolean[];
  readonly struck: readonly boolean[];
  readonly low: number;
  readonly high: number;
  /** Place of a single key on the staff, in steps, where known. */
  readonly diatonic: number | undefined;
  /** `candidates[i].fingers[k]` plays `keys[k]`. */
  readonly candidates: readonly CandidateFingers[];
  /** Index in `struck` (or, for held keys, `held`) of the slice for every key. */
  readonly source: readonly number[];
  readonly seconds: number;
  readonly free: number;
  readonly pace: Pace;
  /** True where the hand comes from a rest, a lifted key or, in time, the end of a phrase. */
  readonly fresh: boolean;
  /** True where this slice is never played right after the slice before it, as a second ending after the first. */
  readonly cut: boolean;
  /** How long two keys alternate here. */
  readonly alternation: Alternation;
  readonly onBeat: boolean;
  /** True where the one key struck is the one before, in a row of three fast strokes or more. */
  readonly repeats: boolean;
  /** True where the next note goes back to the key before. */
  readonly goesBack: boolean;
  readonly grace: boolean;
  readonly slice: Slice;
  /** True where the file gives a digit that must be kept. */
  readonly given: boolean;
  /** True where the keys cannot all be played or the given digits contradict the hand. */
  readonly trouble: 'none' | 'reach' | 'digits';
}

/** Classes of the seconds since the previous onset, from 0, the fastest; their upper limits, from memory. */
export type Pace = 0 | 1 | 2 | 3 | 4 | 5 | 6;
const PACE_LIMITS = [0.1, 1 / 7, 0.2, 0.25, 0.45, 0.8] as const;
export const PACES = PACE_LIMITS.length + 1;

export function paceOf(seconds: number): Pace {
  let pace = 0;
  while (pace < PACE_LIMITS.length && seconds > PACE_LIMITS[pace]! + ROUNDING) pace++;
  return pace as Pace;
}

/** 0 fast, 1 moderate, 2 slow: up to 0.2 seconds, up to 0.45, more. */
export type RoughPace = 0 | 1 | 2;
const ROUGH_PACES: readonly RoughPace[] = [0, 0, 0, 1, 1, 2, 2];

export function roughPace(pace: Pace): RoughPace {
  return ROUGH_PACES[pace]!;
}

/** Seconds below which two times are one. */
const ROUNDING = 1e-9;

interface Member extends Wanted {
  /** Index in `struck` or `held` of the slice. */
  readonly source: number;
  readonly given: SliceKey;
}

const NONE: ReadonlySet<number> = new Set();

/**
 * @param keepDigits keep the digits that the file gives
 * @param cuts slices that are never played right after the slice before them
 */
export function viewLine(
  line: Line,
  hand: HandModel,
  keepDigits: boolean,
  cuts: ReadonlySet<number> = NONE,
): readonly SliceView[] {
  const views: SliceView[] = [];
  const lengths = alternations(line.slices);
  const repeated = repetitions(line.slices);
  const back = returns(line.slices, cuts);
  const heldKeys = new HeldKeys();
  for (const slice of line.slices) {
    let members: readonly Member[];
    let found: Kept;
    do {
      members = membersOf(slice, line.hand, keepDigits, heldKeys);
      found = candidatesFor(members, hand, slice.rolled);
    } while (!heldKeys.settle(slice, members, found, views.at(-1)));
    views.push(
      viewSlice(
        slice,
        members,
        found,
        cuts.has(slice.index),
        lengths[slice.index]!,
        repeated[slice.index]!,
        back[slice.index]!,
      ),
    );
  }
  return views;
}

/** The keys of a slice as the right hand sees them, ascending, without those that it has let go. */
function membersOf(
  { struck, held }: Slice,
  side: Hand,
  keepDigits: boolean,
  heldKeys: HeldKeys,
): readonly Member[] {
  const members: Member[] = [];
  for (let nth = 0; nth < struck.length; nth++) {
    const given = struck[nth]!;
    members.push(memberOf(given, nth, side, true, keepDigits ? given.fixed : undefined));
  }
  for (let nth = 0; nth < held.length; nth++) {
    const key = held[nth]!;
    if (heldKeys.holds(key)) members.push(memberOf(key, nth, side, false, undefined));
  }
  return members.length > 1 ? members.sort(byKey) : members;
}

function memberOf(
  given: SliceKey,
  source: number,
  side: Hand,
  struck: boolean,
  fixed: Finger | undefined,
): Member {
  const key = side === 'left' ? mirrorKey(given.key) : given.key;
  return { key, struck, pedalled: given.pedalled === true, fixed, source, given };
}

function byKey(one: Member, other: Member): number {
  return one.key - other.key;
}

function viewSlice(
  slice: Slice,
  members: readonly Member[],
  found: Kept,
  cut: boolean,
  alternation: Alternation,
  repeats: boolean,
  goesBack: boolean,
): SliceView {
  const { kept, keys } = found;
  const source = new Array<number>(kept.length);
  for (let nth = 0; nth < kept.length; nth++) source[nth] = members[kept[nth]!]!.source;
  return {
    index: slice.index,
    keys,
    x: found.x,
    black: found.black,
    struck: found.struck,
    low: keys[0] ?? 0,
    high: keys[keys.length - 1] ?? 0,
    diatonic: kept.length === 1 ? members[kept[0]!]!.given.diatonic : undefined,
    candidates: found.candidates,
    source,
    seconds: slice.seconds,
    free: slice.free,
    pace: paceOf(slice.seconds),
    fresh: slice.index === 0 || isFreeToGo(slice.free, slice.phraseStart, slice.seconds),
    cut,
    alternation,
    onBeat: slice.onBeat,
    repeats,
    goesBack,
    grace: slice.grace,
    slice,
    given: members.some(isFixed),
    trouble: found.trouble,
  };
}
