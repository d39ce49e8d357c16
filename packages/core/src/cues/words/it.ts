import type { Words } from '../keys.js';

const NAMES = ['do', 're', 'mi', 'fa', 'sol', 'la', 'si'] as const;

function noteName(step: number, alter: number): string {
  const word = alter < 0 ? 'bemolle' : 'diesis';
  const accidentals = ['', ` ${word}`, ` doppio ${word}`] as const;
  return `${NAMES[step]}${accidentals[Math.abs(alter)]}`;
}

export const italian: Words = {
  cues: {
    'thumb-passes': 'pollice',
    'over-thumb': 'scavalca',
    'hand-over': 'mano sopra',
    'hand-under': 'mano sotto',
    in: 'entra',
    'far-in': 'entra molto',
    'further-in': 'entra ancora',
    out: 'esci',
    'far-out': 'esci molto',
    'further-out': 'esci ancora',
    lean: 'entra un poco',
    'arm-right': 'poi a destra',
    'arm-left': 'poi a sinistra',
    'wrist-rises': 'alza il polso',
    'wrist-level': 'abbassa il polso',
    rotate: 'rotazione',
    'turn-thumb': 'verso il pollice',
    'turn-fifth': 'verso il 5º',
    'turn-afresh': 'nuovo slancio',
  },
  full: {
    'thumb-passes': 'passa il pollice',
    in: 'avambraccio: entra',
    'far-in': 'avambraccio: entra molto',
    out: 'avambraccio: esci',
    'far-out': 'avambraccio: esci molto',
    lean: 'avambraccio: entra un poco',
  },
  meanings: {
    'thumb-passes': 'il pollice passa dietro il dito che suona',
    'over-thumb': 'un dito passa sopra il pollice',
    'hand-over': "questa mano passa sopra l'altra",
    'hand-under': "questa mano resta sotto l'altra",
    in: "l'avambraccio avanza verso il coperchio della tastiera",
    'far-in': 'un lungo tratto verso il coperchio della tastiera',
    'further-in': 'ancora più verso il coperchio della tastiera',
    out: "l'avambraccio si allontana dal coperchio della tastiera",
    'far-out': 'un lungo tratto dal coperchio della tastiera',
    'further-out': 'ancora più lontano dal coperchio della tastiera',
    lean: 'il peso avanza un poco sopra il tasto',
    'arm-right': 'da questa nota il braccio si sposta a destra',
    'arm-left': 'da questa nota il braccio si sposta a sinistra',
    'wrist-rises': 'il polso sale un poco a ogni dito',
    'wrist-level': 'il polso torna a livello',
    rotate: "l'avambraccio ruota da una parte e dall'altra con le note",
    'turn-thumb': "l'avambraccio ruota verso il lato del pollice",
    'turn-fifth': "l'avambraccio ruota verso il lato del quinto dito",
    'turn-afresh': 'lo slancio è esaurito: preparare la rotazione',
  },
  dashes: 'il movimento continua, fino alla fine dei trattini',
  hands: { right: 'm.d.', left: 'm.s.' },
  takes: { right: 'la mano destra prende queste note', left: 'la mano sinistra prende queste note' },
  reasons: {
    thumb: 'il pollice',
    arm: 'il braccio',
    own: { in: '{mover} entra: {why}', out: '{mover} esce: {why}' },
    ready: { in: '{mover} entra e prepara {coming}: {why}', out: '{mover} esce e prepara {coming}: {why}' },
    evenly: {
      in: '{mover} entra: il braccio prosegue il movimento',
      out: '{mover} esce: il braccio prosegue il movimento',
    },
    causes: {
      'black-key': '{key} è un tasto nero',
      'front-of-black-key': '{key} si suona più leggero vicino al bordo anteriore',
      'hold-for-short-finger': 'è un dito corto e ha bisogno di appoggio su {key}',
      'off-the-edge': 'starebbe troppo vicino al bordo di {key}',
      'between-black-keys': '{key} sta tra due tasti neri',
      'beside-black-key': '{key} ha accanto un tasto nero',
    },
    noteName,
  },
  caution:
    'Diteggiatura e indicazioni sono suggerimenti. Fermarsi in caso di dolore, intorpidimento o stanchezza. Decide un insegnante qualificato; per i sintomi, un medico.',
};
