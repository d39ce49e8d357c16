import type { Cause } from './cause.js';
import { longFingersCross, needlessCrossing, thumbLate, thumbUnderPalm } from './crossings.js';
import { betweenBlackKeys, curled, forearmTravels, overReaching, thumbOnBlack } from './depth.js';
import { fastRepetition, oneFingerMoves, stretched, weakTrill } from './fingers.js';
import { handMoves, heldKeyLost, unholdable } from './hand.js';
import { handsInTheWay } from './hands-in-the-way.js';
import { otherHand } from './other-hand.js';
import { scaleFingering } from './scale-fingering.js';

/** The causes that a hand's fingering shows by itself, the most telling first. */
export const CAUSES_OF_A_HAND: readonly Cause[] = [
  unholdable,
  otherHand,
  heldKeyLost,
  scaleFingering,
  handsInTheWay,
  longFingersCross,
  needlessCrossing,
  thumbLate,
  thumbUnderPalm,
  fastRepetition,
  weakTrill,
  oneFingerMoves,
  stretched,
  thumbOnBlack,
  betweenBlackKeys,
  curled,
  overReaching,
  forearmTravels,
  handMoves,
];
