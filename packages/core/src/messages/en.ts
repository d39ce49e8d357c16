import type { MessageWords } from './words.js';

export const english: MessageWords = {
  place: { part: 'part {name}', measure: 'measure {name}', line: 'line {number}', column: 'column {number}' },
  hands: { right: 'the right hand', left: 'the left hand' },
  piano: 'the piano',
  and: ' and ',
  or: ', or ',
  more: ' and {count} more',
  places: ' (first of {count} places)',
  reading: {
    attributes: 'has divisions or a time signature that cannot be used',
    'no-forward': '<forward> has no positive duration',
    'no-backup': '<backup> has no positive duration',
    'backup-too-far': '<backup> goes back beyond the start of its measure; it stops there',
    order: 'the elements of a <note> are not in the order that MusicXML requires',
    'lone-chord-member': 'a chord member has no note to join',
    'staff-beyond': "a note stands on a staff beyond the part's {staves}; no hand plays it",
    'unreadable-pitch': 'a <pitch> cannot be read; its note is left alone',
    microtone: 'a pitch lies between two keys; its note is left alone',
    'out-of-range': 'a note lies outside A0 to C8; it is left alone',
    'empty-note': 'a note has the duration 0',
    'empty-rest': 'a rest has the duration 0',
    'no-duration': 'a note has no usable duration; its <type> is used instead',
    'no-divisions': 'has no <divisions>; 1 per quarter note is assumed',
    rounded: 'times are rounded: the divisions are too fine',
    'repeated-id': 'an earlier part has the same id; this one is read as its continuation',
  },
  emptyStaff:
    'the part has {staves} staves, but its notes name none, so all are on the first: {hand} has nothing to play; give the notes of the other staff a <staff>',
  noParts: 'the score has no parts; nothing is marked',
  noPiano: 'no piano part was found; nothing is marked; name the part to mark ({ids})',
  nothingThere: '{who} has no notes; nothing is marked',
  nothingInMeasures: '{who} has no notes in measures {from}-{to}; nothing is marked',
  handMoved:
    "{count} cross-staff notes are out of reach of their voice's hand; the hand of their staff plays them",
  misfit: 'several digits at one note do not fit its chord; they stay in print and are not used',
  unreachable: 'beat {beat}: {hand} cannot reach all keys; {ways}',
  conflict:
    "beat {beat}: the digits in the file ({digits}) do not fit the reach or order of {hand}'s fingers; they are kept",
  digit: '{finger} on {key}',
  ways: { 'other-hand': 'let {hand} take {keys}', roll: 'roll the chord', omit: 'omit {keys}' },
  takes: "{hand} takes {keys} of {other}'s chord",
};
