import { reachBetween } from '../../anatomy/reach.js';
import { WHITE_WIDTH } from '../../keyboard/key-plan.js';
import type { Thresholds } from '../../options/review-options.js';
import type { CauseName, Found } from '../causes/cause.js';
import { KINDS } from '../measure/kinds.js';
import type { Scene } from '../measure/scene.js';
import { type Diagnosis, isInPrint } from './diagnosis.js';
import type { Remedy } from './remedies.js';
import { LEVELS, type Level, levelOf } from './thresholds.js';

/**
 * mm that each changed digit must save, as multiples of the least that one must: a change of many digits is another
 * fingering rather than a mistake mended. Our choice.
 */
const EACH: Readonly<Record<Level, number>> = { 'worth changing': 4, 'worth a look': 2, remark: 1 };
/** Share of what a remedy saves that it may cost more of one kind of movement: our choice. */
const MOST_LOST = 0.5;
/** Share of the practical limit of a pair up to which a stretch is the player's affair: our choice. */
const AT_THE_LIMIT = 0.95;

/**
 * How grave a finding is. What no hand can hold is to be changed; what the other hand may take, and a held key that is
 * lost, are worth a look, whatever they save, and no more: somebody else plays it, the pedal keeps it. No more than that,
 * too, are a shift of the hand, a thumb on black, a stretch that this hand has, what inferred fingers do, which are not in
 * print, and where the remedy costs much of another kind.
 */
export function gravity(
  { cause, found }: Diagnosis,
  { saved, changed, kinds }: Remedy,
  printed: Scene,
  thresholds: Thresholds,
): Level {
  if (cause === 'unholdable') return 'worth changing';
  if (cause === 'other-hand' || cause === 'held-key-lost') return 'worth a look';
  const most = LEVELS.slice(LEVELS.indexOf(levelOf(saved, thresholds)));
  const level = most.find((own) => saved >= EACH[own] * thresholds.digit * changed) ?? 'remark';
  const mild =
    cause === 'hand-moves' ||
    cause === 'thumb-on-black' ||
    KINDS.some((kind) => -kinds[kind] > MOST_LOST * saved) ||
    !isInPrint(printed, found) ||
    (cause === 'stretch' && isWithinReach(printed, found));
  return level === 'worth changing' && mild ? 'worth a look' : level;
}

function isWithinReach({ hand }: Scene, { finger, other, mm = 0 }: Found): boolean {
  return other !== undefined && mm < AT_THE_LIMIT * reachBetween(hand, finger, other.finger).maxPractical;
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
