import type { PictureWords } from './texts.js';

export const italian: PictureWords = {
  hands: { right: 'mano destra', left: 'mano sinistra' },
  right: 'a destra',
  left: 'a sinistra',
  depthTitle: "L'avambraccio entra ed esce, {hand}",
  depth:
    "Da sinistra a destra con le note: l'avambraccio sta tra {least} e {most} mm dal bordo anteriore dei tasti; entrate: {ins}, uscite: {outs}, passaggi: {crossings}.",
  carryTitle: 'Il braccio lungo la tastiera, {hand}',
  carry:
    'Da sinistra a destra con le note: i tasti suonati e il braccio, che percorre in tutto {travel} mm a destra e a sinistra; passaggi: {crossings}.',
  none: 'Nessuna nota di questa mano.',
  keyboardTitle: 'Tastiera, {hand}: {fingers}',
  nothingPlayed: 'nessun dito suona',
  fingerOn: '{finger} su {key}',
  holding: '{finger} tiene {key}',
  thumb: 'pollice',
  forearm: "L'avambraccio sta a {depth} mm dal bordo anteriore dei tasti",
  furtherIn: '{mm} mm più dentro di prima',
  furtherOut: '{mm} mm più fuori di prima',
};
