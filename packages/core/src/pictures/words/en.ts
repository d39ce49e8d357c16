import type { PictureWords } from './texts.js';

export const english: PictureWords = {
  hands: { right: 'right hand', left: 'left hand' },
  right: 'right',
  left: 'left',
  depthTitle: 'Forearm in and out, {hand}',
  depth:
    'From left to right with the notes: the forearm lies between {least} and {most} mm from the front edge of the keys; moves in: {ins}, moves out: {outs}, crossings: {crossings}.',
  carryTitle: 'The arm along the keyboard, {hand}',
  carry:
    'From left to right with the notes: the keys that are played, and the arm, which travels {travel} mm to the right and to the left in all; crossings: {crossings}.',
  none: 'No notes of this hand here.',
  keyboardTitle: 'Keyboard, {hand}: {fingers}',
  nothingPlayed: 'no finger in use',
  fingerOn: '{finger} on {key}',
  holding: '{finger} holds {key}',
  thumb: 'thumb',
  forearm: 'The forearm lies {depth} mm from the front edge of the keys',
  furtherIn: '{mm} mm further in than before',
  furtherOut: '{mm} mm further out than before',
};
