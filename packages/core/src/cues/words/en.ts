import type { Words } from '../keys.js';

const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;

function noteName(step: number, alter: number): string {
  const word = alter < 0 ? 'flat' : 'sharp';
  const accidentals = ['', ` ${word}`, ` double ${word}`] as const;
  return `${LETTERS[step]}${accidentals[Math.abs(alter)]}`;
}

export const english: Words = {
  cues: {
    'thumb-passes': 'thumb',
    'over-thumb': 'over',
    'hand-over': 'hand over',
    'hand-under': 'hand under',
    in: 'in',
    'far-in': 'far in',
    'further-in': 'further in',
    out: 'out',
    'far-out': 'far out',
    'further-out': 'further out',
    lean: 'lean',
    'arm-right': 'then right',
    'arm-left': 'then left',
    'wrist-rises': 'wrist rises',
    'wrist-level': 'wrist level',
    rotate: 'rotate',
    'turn-thumb': 'to the thumb',
    'turn-fifth': 'away from it',
    'turn-afresh': 'turn afresh',
  },
  full: {
    'thumb-passes': 'thumb passes',
    'over-thumb': 'over the thumb',
    in: 'forearm in',
    'far-in': 'forearm far in',
    out: 'forearm out',
    'far-out': 'forearm far out',
    lean: 'forearm leans in',
    'turn-fifth': 'away from the thumb',
  },
  meanings: {
    'thumb-passes': 'the thumb passes behind the finger that plays',
    'over-thumb': 'a finger passes over the thumb',
    'hand-over': 'this hand goes over the other',
    'hand-under': 'this hand stays under the other',
    in: 'the forearm moves towards the fallboard',
    'far-in': 'a long way towards the fallboard',
    'further-in': 'still further towards the fallboard',
    out: 'the forearm moves away from the fallboard',
    'far-out': 'a long way from the fallboard',
    'further-out': 'still further from the fallboard',
    lean: 'the weight moves in over the key a little',
    'arm-right': 'from this note the arm travels to the right',
    'arm-left': 'from this note the arm travels to the left',
    'wrist-rises': 'the wrist rises a little with each finger',
    'wrist-level': 'the wrist is level again',
    rotate: 'the forearm turns to and fro with the notes',
    'turn-thumb': "the forearm turns towards the thumb's side",
    'turn-fifth': "the forearm turns towards the fifth finger's side",
    'turn-afresh': 'no swing is left: prepare the turn',
  },
  dashes: 'the move goes on, up to the end of the dashes',
  hands: { right: 'r.h.', left: 'l.h.' },
  takes: { right: 'the right hand takes these notes', left: 'the left hand takes these notes' },
  reasons: {
    thumb: 'the thumb',
    arm: 'the arm',
    own: { in: '{mover} goes in: {why}', out: '{mover} comes out: {why}' },
    ready: {
      in: '{mover} moves in, ready for {coming}: {why}',
      out: '{mover} moves out, ready for {coming}: {why}',
    },
    evenly: {
      in: '{mover} moves in: the arm moves on evenly',
      out: '{mover} moves out: the arm moves on evenly',
    },
    causes: {
      'black-key': '{key} is a black key',
      'front-of-black-key': '{key} plays lighter nearer its front',
      'hold-for-short-finger': 'it is short and needs a hold on {key}',
      'off-the-edge': 'it would lie too near the edge of {key}',
      'between-black-keys': '{key} lies between two black keys',
      'beside-black-key': '{key} has a black key beside it',
    },
    noteName,
  },
  caution:
    'Fingering and cues are suggestions. Stop at pain, numbness or fatigue. A qualified teacher decides what suits a hand; see a clinician about symptoms.',
};
