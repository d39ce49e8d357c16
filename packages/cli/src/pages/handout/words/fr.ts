import type { HandoutWords } from './texts.js';

export const french: HandoutWords = {
  untitled: 'Feuille de travail',
  student: 'Pour {name}',
  teacherNotes: 'Remarques du professeur',
  music: 'La musique',
  measures: 'Mesures {from}–{to}',
  measure: 'Mesure {from}',
  asPrinted: 'tel qu’imprimé',
  easier: 'plus facile',
  compared: 'Mouvement de ces mesures : {printed} mm tel qu’imprimé, {easier} mm avec le doigté plus facile.',
  keyboard: 'Au clavier',
  findings: 'Le doigté imprimé',
  noFindings: 'Aucun doigt imprimé ne demande nettement plus de mouvement qu’un autre.',
  moreFindings: 'Il y en a {count} de plus ; « handline review » les donne toutes.',
  place: 'Mesure {measure}, temps {beat}, {hand}',
  hands: { right: 'main droite', left: 'main gauche' },
  signs: 'Ce que veulent dire les signes',
  ribbon:
    'La bande sous les notes montre l’avant-bras vu d’en haut : en haut, le fond des touches ; en bas, le pianiste.',
  signIn: 'l’avant-bras entre avec cette note, de 5 mm ou plus',
  signOut: 'l’avant-bras sort avec cette note, de 5 mm ou plus',
  signStays: 'l’avant-bras reste à peu près où il est',
  signBlack: 'ombré : le bout du 3 se trouve ici entre les touches noires',
  signLifted: 'tirets : la main a quitté les touches et se déplace librement',
  signUnder: 'un arc sous la bande : le pouce passe, ici derrière le 3',
  signOver: 'un arc au-dessus de la bande : un doigt passe par-dessus le pouce, ici le 3',
  signCarry: 'la ligne entre les cercles est le bras le long du clavier ; un cercle est une touche jouée',
  signView:
    'Au clavier, un cercle plein est un doigt qui joue, un cercle en tirets un doigt qui tient, un cercle en pointillé un doigt qui est parti ou qui va venir. La ligne en travers des touches est la profondeur de l’avant-bras ; la flèche à côté montre le mouvement.',
  caution: 'Attention',
  engraved: 'Annoté par Handline {version}. Gravure : verovio, logiciel libre sous LGPL 3.0 ou ultérieure.',
};
