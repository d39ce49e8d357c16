import type { Words } from '../keys.js';

const NAMES = ['do', 'ré', 'mi', 'fa', 'sol', 'la', 'si'] as const;

function noteName(step: number, alter: number): string {
  const word = alter < 0 ? 'bémol' : 'dièse';
  const accidentals = ['', ` ${word}`, ` double ${word}`] as const;
  return `${NAMES[step]}${accidentals[Math.abs(alter)]}`;
}

export const french: Words = {
  cues: {
    'thumb-passes': 'pouce',
    'over-thumb': 'dessus',
    'hand-over': 'main dessus',
    'hand-under': 'main dessous',
    in: 'entrer',
    'far-in': 'entrer loin',
    'further-in': 'entrer encore',
    out: 'sortir',
    'far-out': 'sortir loin',
    'further-out': 'sortir encore',
    lean: 'entrer un peu',
    'arm-right': 'puis à droite',
    'arm-left': 'puis à gauche',
    'wrist-rises': 'lever le poignet',
    'wrist-level': 'baisser le poignet',
    rotate: 'rotation',
    'turn-thumb': 'vers le pouce',
    'turn-fifth': 'vers le 5e',
    'turn-afresh': 'nouvel élan',
  },
  full: {
    'thumb-passes': 'passer le pouce',
    'over-thumb': 'au-dessus du pouce',
    in: 'avant-bras\u00a0: entrer',
    'far-in': 'avant-bras\u00a0: entrer loin',
    out: 'avant-bras\u00a0: sortir',
    'far-out': 'avant-bras\u00a0: sortir loin',
    lean: 'avant-bras\u00a0: entrer un peu',
  },
  meanings: {
    'thumb-passes': 'le pouce passe derrière le doigt qui joue',
    'over-thumb': 'un doigt passe par-dessus le pouce',
    'hand-over': "cette main passe au-dessus de l'autre",
    'hand-under': "cette main reste au-dessous de l'autre",
    in: "l'avant-bras avance vers le couvercle du clavier",
    'far-in': "l'avant-bras avance loin vers le couvercle",
    'further-in': "l'avant-bras avance encore vers le couvercle",
    out: "l'avant-bras s'éloigne du couvercle du clavier",
    'far-out': "l'avant-bras s'éloigne beaucoup du couvercle",
    'further-out': "l'avant-bras s'éloigne encore du couvercle",
    lean: 'le poids avance un peu au-dessus de la touche',
    'arm-right': 'à partir de cette note, le bras va vers la droite',
    'arm-left': 'à partir de cette note, le bras va vers la gauche',
    'wrist-rises': 'le poignet monte un peu à chaque doigt',
    'wrist-level': 'le poignet revient à son niveau',
    rotate: "l'avant-bras tourne de part et d'autre avec les notes",
    'turn-thumb': "l'avant-bras tourne du côté du pouce",
    'turn-fifth': "l'avant-bras tourne du côté du cinquième doigt",
    'turn-afresh': "l'élan est épuisé : préparer la rotation",
  },
  dashes: "le mouvement continue, jusqu'au bout des tirets",
  hands: { right: 'm.d.', left: 'm.g.' },
  takes: { right: 'la main droite prend ces notes', left: 'la main gauche prend ces notes' },
  reasons: {
    thumb: 'le pouce',
    arm: 'le bras',
    own: { in: '{mover} entre : {why}', out: '{mover} sort : {why}' },
    ready: {
      in: '{mover} entre pour préparer {coming} : {why}',
      out: '{mover} sort pour préparer {coming} : {why}',
    },
    evenly: {
      in: '{mover} entre : le bras poursuit son mouvement',
      out: '{mover} sort : le bras poursuit son mouvement',
    },
    causes: {
      'black-key': '{key} est une touche noire',
      'front-of-black-key': '{key} se joue plus facilement près de son bord avant',
      'hold-for-short-finger': "ce doigt court a besoin d'appui sur {key}",
      'off-the-edge': 'il serait trop près du bord de {key}',
      'between-black-keys': '{key} se trouve entre deux touches noires',
      'beside-black-key': "{key} est à côté d'une touche noire",
    },
    noteName,
  },
  caution:
    "Doigtés et indications sont des suggestions. Arrêtez-vous en cas de douleur, d'engourdissement ou de fatigue. C'est à un professeur qualifié de décider, et à un médecin d'examiner tout symptôme.",
};
