import type { PictureWords } from './texts.js';

export const german: PictureWords = {
  hands: { right: 'rechte Hand', left: 'linke Hand' },
  right: 'rechts',
  left: 'links',
  depthTitle: 'Unterarm hinein und heraus, {hand}',
  depth:
    'Von links nach rechts mit den Noten: Der Unterarm liegt {least} bis {most} mm von der Vorderkante der Tasten; hinein: {ins}, heraus: {outs}, Über- und Untersätze: {crossings}.',
  carryTitle: 'Der Arm die Klaviatur entlang, {hand}',
  carry:
    'Von links nach rechts mit den Noten: die gespielten Tasten und der Arm, der insgesamt {travel} mm nach rechts und links wandert; Über- und Untersätze: {crossings}.',
  none: 'Keine Noten dieser Hand.',
  keyboardTitle: 'Klaviatur, {hand}: {fingers}',
  nothingPlayed: 'kein Finger im Einsatz',
  fingerOn: '{finger} auf {key}',
  holding: '{finger} hält {key}',
  thumb: 'Daumen',
  forearm: 'Der Unterarm liegt {depth} mm von der Vorderkante der Tasten',
  furtherIn: '{mm} mm weiter hinein als zuvor',
  furtherOut: '{mm} mm weiter heraus als zuvor',
};
