import type { HandoutWords } from './texts.js';

export const english: HandoutWords = {
  untitled: 'Handout',
  student: 'For {name}',
  teacherNotes: 'Notes from your teacher',
  music: 'The music',
  measures: 'Measures {from}–{to}',
  measure: 'Measure {from}',
  asPrinted: 'as printed',
  easier: 'easier',
  compared: 'Movement of these measures: {printed} mm as printed, {easier} mm with the easier fingering.',
  keyboard: 'On the keyboard',
  findings: 'The printed fingering',
  noFindings: 'No printed digit costs noticeably more movement than another would.',
  moreFindings: 'There are {count} more; “handline review” lists them all.',
  place: 'Measure {measure}, beat {beat}, {hand}',
  hands: { right: 'right hand', left: 'left hand' },
  signs: 'What the signs mean',
  ribbon:
    'The band under the notes shows the forearm from above: up is towards the fallboard, down towards you.',
  signIn: 'the forearm moves in with this note, by 5 mm or more',
  signOut: 'the forearm moves out with this note, by 5 mm or more',
  signStays: 'the forearm stays about where it is',
  signBlack: 'shaded: here the fingertip of 3 lies among the black keys',
  signLifted: 'dashed: the hand is off the keys and free to move',
  signUnder: 'an arc below the band: the thumb passes, here behind 3',
  signOver: 'an arc above the band: a finger passes over the thumb, here 3',
  signCarry: 'the line among the rings is the arm along the keyboard; a ring is a key that is played',
  signView:
    'On the keyboard a full ring is a finger that plays, a dashed one a finger that holds, a dotted one a finger that has left or is still to come. The line across the keys is the depth of the forearm; the arrow beside it shows the move.',
  caution: 'Caution',
  engraved: 'Marked by Handline {version}. Engraved by verovio, free software under the LGPL 3.0 or later.',
};
