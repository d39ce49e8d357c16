import type { PictureWords } from './texts.js';

export const french: PictureWords = {
  hands: { right: 'main droite', left: 'main gauche' },
  right: 'à droite',
  left: 'à gauche',
  depthTitle: "L'avant-bras entre et sort, {hand}",
  depth:
    "De gauche à droite avec les notes : l'avant-bras se trouve entre {least} et {most} mm du bord avant des touches ; mouvements vers l'intérieur : {ins}, vers l'extérieur : {outs}, passages : {crossings}.",
  carryTitle: 'Le bras le long du clavier, {hand}',
  carry:
    'De gauche à droite avec les notes : les touches jouées et le bras, qui parcourt en tout {travel} mm vers la droite et vers la gauche ; passages : {crossings}.',
  none: 'Pas de notes pour cette main.',
  keyboardTitle: 'Clavier, {hand} : {fingers}',
  nothingPlayed: 'aucun doigt ne joue',
  fingerOn: '{finger} sur {key}',
  holding: '{finger} tient {key}',
  thumb: 'pouce',
  forearm: "L'avant-bras se trouve à {depth} mm du bord avant des touches",
  furtherIn: "{mm} mm plus vers l'intérieur qu'avant",
  furtherOut: "{mm} mm plus vers l'extérieur qu'avant",
};
