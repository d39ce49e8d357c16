import type { HandModel } from '../anatomy/hand.js';
import { reach } from '../anatomy/reach.js';
import { isFreshStart } from '../hands/fresh-start.js';
import type { Line } from '../hands/line.js';
import { isBlack } from '../keyboard/key-plan.js';
import { handX, isStruck, isStruckThumb, isThumb, type Use } from './fingers-in-use.js';
import type { Crossing } from './plan.js';

/** Difficulty in mm equivalents of a crossing between white keys; all numbers here from memory. */
const BASE = 8;
/** Added for a thumb on white behind a finger on black, on black behind one on white, on black behind one on black. */
const BLACK_TO_WHITE = -4;
const WHITE_TO_BLACK = 12;
const BLACK_TO_BLACK = 6;
/** Added by the finger that is crossed: 2 leaves little room. */
const BY_FINGER = [0, 4, 0, 1, 0] as const;
/** mm equivalents per mm beyond what the finger pair crosses in comfort. */
const STRETCH_WEIGHT = 0.3;
/** Semitones from the finger to the thumb's key at most: a fifth. Beyond it, and in chords wider than an octave, the hand leaps. */
const FARTHEST = 7;
const WIDEST = 12;
/** Seconds that a connected line may be off the keys: from memory. */
const LIFTED = 0.06;
/** mm by which the arm, moving along, helps 2, 3 and 4 to cross further than the hand alone: arpeggios. */
const ARM_HELP = 40;

/**
 * Thumb crossings of one hand: at every slice the crossing by which it is reached, if any. The thumb passes 2, 3 or 4, or
 * one of these passes over it, in a connected line. Where two fingers would have to cross further than they can, or the
 * hand was off the keys, the hand has moved as a whole and crosses nothing.
 */
export function thumbCrossings(
  line: Line,
  slices: readonly (readonly Use[])[],
  hand: HandModel,
): readonly (Crossing | undefined)[] {
  // From the thumb's side outwards: of two keys under one finger both hands then judge the same one.
  const outwards = line.hand === 'right' ? upwards : downwards;
  const crossings: (Crossing | undefined)[] = [];
  let before: readonly Use[] | undefined;
  for (let at = 0; at < slices.length; at++) {
    const uses = slices[at]!;
    const now = uses.length < 2 ? uses : [...uses].sort(outwards);
    const slice = line.slices[at]!;
    const leaves = (isFreshStart(slice) || slice.free > LIFTED) && now.every(isStruck);
    crossings.push(
      before && !leaves && !leaps(before, now)
        ? (behind(line, before, now, hand) ?? over(line, before, now, hand))
        : undefined,
    );
    before = now;
  }
  return crossings;
}

/** Whether the whole hand goes from chord to chord: a finger changes its key, or both lie further apart than an octave. */
function leaps(before: readonly Use[], now: readonly Use[]): boolean {
  if (before.length < 2 && now.length < 2) return false;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const use of now) if (moves(use, before)) return true;
  for (const uses of [before, now]) {
    for (const { key } of uses) {
      low = Math.min(low, key);
      high = Math.max(high, key);
    }
  }
  return high - low > WIDEST;
}

function upwards(a: Use, b: Use): number {
  return a.key - b.key;
}

function downwards(a: Use, b: Use): number {
  return b.key - a.key;
}

/**
 * The thumb strikes beyond fingers that were on their keys: the furthest of these counts. A thumb or finger that was on
 * another key of the hand just now has moved with the whole hand, as from chord to chord.
 */
function behind(
  line: Line,
  before: readonly Use[],
  now: readonly Use[],
  hand: HandModel,
): Crossing | undefined {
  const thumb = now.find(isStruckThumb);
  if (!thumb || before.some(isThumb)) return undefined;
  let finger: Use | undefined;
  for (const use of before) {
    if (!crossed(line, thumb, use) || moves(use, now)) continue;
    if (!finger || use.finger >= finger.finger) finger = use;
  }
  return finger && crossing(line, thumb, finger, 'thumb-passing', hand);
}

/** Fingers strike on the far side of a thumb that was on its key: the nearest of these counts. */
function over(
  line: Line,
  before: readonly Use[],
  now: readonly Use[],
  hand: HandModel,
): Crossing | undefined {
  const thumb = before.find(isThumb);
  if (!thumb || now.some(isStruckThumb)) return undefined;
  let finger: Use | undefined;
  for (const use of now) {
    if (!use.struck || !crossed(line, thumb, use) || moves(use, before)) continue;
    if (!finger || use.finger <= finger.finger) finger = use;
  }
  return finger && crossing(line, thumb, finger, 'finger-over', hand);
}

/** Whether the same finger has another key in the other slice. */
function moves({ finger, key }: Use, other: readonly Use[]): boolean {
  for (const use of other) if (use.finger === finger && use.key !== key) return true;
  return false;
}

/** mm from the thumb's key to the finger's, negative where they are crossed. */
function distance(line: Line, thumb: Use, finger: Use): number {
  return handX(line.hand, finger.key) - handX(line.hand, thumb.key);
}

function crossed(line: Line, thumb: Use, finger: Use): boolean {
  if (finger.finger === 5 || Math.abs(finger.key - thumb.key) > FARTHEST) return false;
  return distance(line, thumb, finger) < 0;
}

function crossing(
  line: Line,
  thumb: Use,
  finger: Use,
  kind: 'thumb-passing' | 'finger-over',
  hand: HandModel,
): Crossing | undefined {
  const room = reach(hand, 1, finger.finger);
  const mm = distance(line, thumb, finger);
  if (mm < room.minPractical - ARM_HELP) return undefined;
  const thumbBlack = isBlack(thumb.key);
  const fingerBlack = isBlack(finger.key);
  let difficulty = BASE + BY_FINGER[finger.finger - 1]!;
  if (fingerBlack && !thumbBlack) difficulty += BLACK_TO_WHITE;
  if (thumbBlack && !fingerBlack) difficulty += WHITE_TO_BLACK;
  if (thumbBlack && fingerBlack) difficulty += BLACK_TO_BLACK;
  difficulty += STRETCH_WEIGHT * Math.max(0, room.minComfortable - mm);
  const [from, to] = kind === 'thumb-passing' ? [finger, thumb] : [thumb, finger];
  return {
    kind,
    from: from.finger,
    to: to.finger,
    direction: to.key > from.key ? 'up' : 'down',
    fromBlack: isBlack(from.key),
    toBlack: isBlack(to.key),
    difficulty,
  };
}
