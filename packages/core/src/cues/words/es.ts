import type { Words } from '../keys.js';

const NAMES = ['do', 're', 'mi', 'fa', 'sol', 'la', 'si'] as const;

function noteName(step: number, alter: number): string {
  const word = alter < 0 ? 'bemol' : 'sostenido';
  const accidentals = ['', ` ${word}`, ` doble ${word}`] as const;
  return `${NAMES[step]}${accidentals[Math.abs(alter)]}`;
}

export const spanish: Words = {
  cues: {
    'thumb-passes': 'pulgar',
    'over-thumb': 'por encima',
    'hand-over': 'mano por encima',
    'hand-under': 'mano por debajo',
    in: 'entrar',
    'far-in': 'entrar mucho',
    'further-in': 'entrar más',
    out: 'salir',
    'far-out': 'salir mucho',
    'further-out': 'salir más',
    lean: 'entrar un poco',
    'arm-right': 'luego a la der.',
    'arm-left': 'luego a la izq.',
    'wrist-rises': 'subir la muñeca',
    'wrist-level': 'bajar la muñeca',
    rotate: 'rotación',
    'turn-thumb': 'hacia el pulgar',
    'turn-fifth': 'hacia el 5.º',
    'turn-afresh': 'nuevo giro',
  },
  full: {
    'thumb-passes': 'pasar el pulgar',
    'over-thumb': 'sobre el pulgar',
    in: 'antebrazo: entrar',
    'far-in': 'antebrazo: entrar mucho',
    out: 'antebrazo: salir',
    'far-out': 'antebrazo: salir mucho',
    lean: 'antebrazo: entrar un poco',
  },
  meanings: {
    'thumb-passes': 'el pulgar pasa por detrás del dedo que toca',
    'over-thumb': 'un dedo pasa por encima del pulgar',
    'hand-over': 'esta mano pasa por encima de la otra',
    'hand-under': 'esta mano queda por debajo de la otra',
    in: 'el antebrazo avanza hacia la tapa del teclado',
    'far-in': 'un largo trecho hacia la tapa del teclado',
    'further-in': 'aún más hacia la tapa del teclado',
    out: 'el antebrazo se aleja de la tapa del teclado',
    'far-out': 'un largo trecho desde la tapa del teclado',
    'further-out': 'aún más lejos de la tapa del teclado',
    lean: 'el peso avanza un poco sobre la tecla',
    'arm-right': 'desde esta nota el brazo se desplaza a la derecha',
    'arm-left': 'desde esta nota el brazo se desplaza a la izquierda',
    'wrist-rises': 'la muñeca sube un poco con cada dedo',
    'wrist-level': 'la muñeca vuelve a su nivel',
    rotate: 'el antebrazo gira a un lado y a otro con las notas',
    'turn-thumb': 'el antebrazo gira hacia el lado del pulgar',
    'turn-fifth': 'el antebrazo gira hacia el lado del quinto dedo',
    'turn-afresh': 'no queda impulso: preparar el giro',
  },
  dashes: 'el movimiento sigue, hasta el final de los guiones',
  hands: { right: 'm.d.', left: 'm.i.' },
  takes: { right: 'la mano derecha toma estas notas', left: 'la mano izquierda toma estas notas' },
  reasons: {
    thumb: 'el pulgar',
    arm: 'el brazo',
    own: { in: '{mover} entra: {why}', out: '{mover} sale: {why}' },
    ready: { in: '{mover} entra y prepara {coming}: {why}', out: '{mover} sale y prepara {coming}: {why}' },
    evenly: {
      in: '{mover} entra: el brazo sigue su movimiento',
      out: '{mover} sale: el brazo sigue su movimiento',
    },
    causes: {
      'black-key': '{key} es una tecla negra',
      'front-of-black-key': '{key} se toca con menos peso cerca de su borde delantero',
      'hold-for-short-finger': 'es un dedo corto y necesita apoyo en {key}',
      'off-the-edge': 'quedaría demasiado cerca del borde de {key}',
      'between-black-keys': '{key} está entre dos teclas negras',
      'beside-black-key': '{key} está junto a una tecla negra',
    },
    noteName,
  },
  caution:
    'La digitación y las indicaciones son sugerencias. Pare ante dolor, entumecimiento o fatiga. Decide un profesor cualificado; ante síntomas, consulte a un profesional sanitario.',
};
