import { reach } from '../../anatomy/reach.js';
import { WHITE_WIDTH } from '../../keyboard/key-plan.js';
import type { Thresholds } from '../../options/review-options.js';
import type { CauseName, Found } from '../causes/cause.js';
import { CAUSES_OF_A_HAND } from '../causes/index-of-causes.js';
import { KINDS } from '../measure/kinds.js';
import { isPrinted, type Scene, wasPrinted } from '../measure/scene.js';
import { type Diagnosis, isInPrint } from './diagnosis.js';
import { isLegatoOctave } from './practice.js';
import type { Remedy } from './remedies.js';
import { type Level, levelOf } from './thresholds.js';

/**
 * Multiple of what a changed digit must save at least from which a finding is more than a remark, about a key's width: a
 * change of many digits is another fingering rather than a mistake mended. Digits changed alike on one key count once. Our
 * choice.
 */
const EACH = 4;
/** Share of what a remedy saves that it may cost more of one kind of movement: our choice. */
const MOST_LOST = 0.5;
/** Share of the practical limit of a pair up to which a stretch is the player's affair: our choice. */
const AT_THE_LIMIT = 0.95;
/** Places at which a score has the same fingers over the same interval from which they are no slip: our choice. */
const MEANT = 3;
/** Slices on either side of keys beyond this hand's reach in which the staff holds notes of the other hand: our choice. */
const SHARED = 8;

/** Causes that lie between two fingers: where one of them is inferred, the note may be played in another way. */
const OF_TWO: readonly CauseName[] = [
  'one-finger-moves',
  'fast-repetition',
  'long-fingers-cross',
  'needless-crossing',
];

/**
 * How grave a finding is, at most: what no hand can hold is to be changed; what the other hand may take, and a held key that
 * is lost, are worth a look, whatever they save, and no more: somebody else plays it, the pedal keeps it. What common
 * practice allows is a remark.
 */
export function gravity(
  { cause, found }: Diagnosis,
  remedy: Remedy,
  printed: Scene,
  thresholds: Thresholds,
): Level {
  const shared = isSharedAt(printed, found.slice);
  if (cause === 'unholdable') return shared ? 'worth a look' : 'worth changing';
  if (shared) return isTooWide(printed, found) ? 'worth a look' : 'remark';
  if (remedy.saved < EACH * thresholds.digit * remedy.distinct) return 'remark';
  if (isUsual(printed, cause, found)) return 'remark';
  if (cause === 'other-hand' || cause === 'held-key-lost') return 'worth a look';
  const level = levelOf(Math.min(remedy.saved, explained(cause, remedy)), thresholds);
  if (level === 'worth a look' && isShift(cause, found)) return 'remark';
  return level === 'worth changing' && isMild(cause, found, remedy, printed) ? 'worth a look' : level;
}

/** mm of what a remedy saves of the kinds that a cause adds to: a finding is as grave as what its cause explains. */
function explained(cause: CauseName, { saved, kinds }: Remedy): number {
  const own = CAUSES_OF_A_HAND.find(({ name }) => name === cause);
  return own ? own.kinds.reduce((sum, kind) => sum + kinds[kind], 0) : saved;
}

/**
 * A remark whatever it saves: a shift of the hand, for hands do shift; octaves played legato; a finger that has time to move
 * or is inferred; a stretch that this hand has, or that is meant; a thumb on black that spans much; and what the pedal may
 * hold.
 */
function isUsual(printed: Scene, cause: CauseName, found: Found): boolean {
  const bothInPrint = areBothInPrint(printed, found);
  switch (cause) {
    case 'one-finger-moves':
      return !bothInPrint || printed.views[found.slice]!.seconds >= UNHURRIED;
    case 'stretch':
      return (
        isWithinReach(printed, found) ||
        isLegatoOctave(printed, found) ||
        isMeant(printed, cause, found) ||
        (!bothInPrint && !areStruckTogether(printed, found))
      );
    case 'held-key-lost':
      return !bothInPrint || isMeant(printed, cause, found);
    case 'hand-moves':
      return true;
    case 'long-fingers-cross':
      return !bothInPrint && isShift(cause, found);
    case 'thumb-under-palm':
      return !bothInPrint;
    case 'thumb-on-black':
      return isWide(printed, found);
    default:
      return false;
  }
}

/**
 * Worth a look at most: a thumb on black, long fingers that cross where the hand may shift, what inferred fingers do, which are not in print, what the score has again and
 * again, and where the remedy costs much of another kind.
 */
function isMild(cause: CauseName, found: Found, { saved, kinds }: Remedy, printed: Scene): boolean {
  return (
    cause === 'thumb-on-black' ||
    isShift(cause, found) ||
    KINDS.some((kind) => -kinds[kind] > MOST_LOST * saved) ||
    !isInPrint(printed, found) ||
    (OF_TWO.includes(cause) && !areBothInPrint(printed, found)) ||
    isMeant(printed, cause, found)
  );
}

/** mm of a step of a scale, and a little more. */
const A_STEP = 1.5 * WHITE_WIDTH;

/** Over more than a step long fingers need not cross: the hand is set down anew. */
function isShift(cause: CauseName, { mm = 0 }: Found): boolean {
  return cause === 'long-fingers-cross' && mm > A_STEP;
}

/** Semitones of a step or two from which the thumb is needed for its span: a sixth. */
const WIDE = 8;

/** The thumb on black spans a wide interval to the note before or after it. */
function isWide({ views }: Scene, { slice }: Found): boolean {
  const own = views[slice]!.low;
  return [slice - 1, slice + 1].some((near) => Math.abs((views[near]?.low ?? own) - own) >= WIDE);
}

/** Seconds a note from which a hop is a matter of taste: our choice. */
const UNHURRIED = 0.6;

/** Whether both fingers of a finding are in print; of a held key, the digit with which it was struck counts. */
function areBothInPrint(printed: Scene, { slice, key, other }: Found): boolean {
  return (
    isPrinted(printed, slice, key) &&
    (other === undefined || other.otherHand === true || wasPrinted(printed, other.slice, other.key))
  );
}

/** Two keys struck together that this hand does not reach with these fingers. */
function isTooWide(printed: Scene, found: Found): boolean {
  return found.beyond === true && areStruckTogether(printed, found);
}

function areStruckTogether({ views }: Scene, { slice, key, other }: Found): boolean {
  const struck = views[slice]!.slice.struck.map((own) => own.key);
  return other !== undefined && struck.includes(key) && struck.includes(other.key);
}

/** The other hand takes notes of this staff nearby: some of its keys lie beyond this hand's reach. */
function isSharedAt({ views }: Scene, at: number): boolean {
  return views.slice(Math.max(0, at - SHARED), at + SHARED + 1).some(({ trouble }) => trouble === 'reach');
}

/** The same fingers over the same interval stand at several places: an editor means them. */
function isMeant(printed: Scene, cause: CauseName, found: Found): boolean {
  const own = CAUSES_OF_A_HAND.find(({ name }) => name === cause);
  let count = 0;
  for (let at = 0; own && count < MEANT && at < printed.views.length; at++) {
    const again = own.find(printed, at);
    if (again && sameFingers(again, found) && isInPrint(printed, again)) count++;
  }
  return count >= MEANT;
}

function sameFingers(one: Found, other: Found): boolean {
  return (
    intervalOf(one) === intervalOf(other) &&
    one.finger === other.finger &&
    one.other?.finger === other.other?.finger
  );
}

function intervalOf({ key, other }: Found): number | undefined {
  return other && key - other.key;
}

/** A pair short of its limit, of this hand. */
function isWithinReach({ hand }: Scene, { finger, other, mm = 0 }: Found): boolean {
  return other !== undefined && mm < AT_THE_LIMIT * reach(hand, finger, other.finger).maxPractical;
}

/** mm that each changed digit must save for a shift of the hand to be told: it is moved a key less. Our choice. */
const A_KEY = WHITE_WIDTH;

/**
 * What cannot be held or is lost is told whatever its remedy saves; anything else only where it saves enough, and a shift of
 * the hand only where few digits spare it: hands do shift.
 */
export function isTold(cause: CauseName, { saved, changed }: Remedy, { remark }: Thresholds): boolean {
  if (cause === 'unholdable' || cause === 'held-key-lost') return true;
  return saved >= (cause === 'hand-moves' ? Math.max(remark, A_KEY * changed) : remark);
}
