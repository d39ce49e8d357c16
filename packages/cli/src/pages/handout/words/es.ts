import type { HandoutWords } from './texts.js';

export const spanish: HandoutWords = {
  untitled: 'Hoja de estudio',
  student: 'Para {name}',
  teacherNotes: 'Notas del profesor',
  contents: 'Índice',
  music: 'La música',
  measures: 'Compases {from}–{to}',
  measure: 'Compás {from}',
  asPrinted: 'como está impreso',
  easier: 'más fácil',
  compared:
    'Movimiento en estos compases: {printed} mm como está impreso, {easier} mm con la digitación más fácil.',
  keyboard: 'En el teclado',
  findings: 'La digitación impresa',
  noFindings: 'Ningún dedo impreso cuesta claramente más movimiento que otro.',
  moreFindings: 'Hay {count} más; «handline review» las da todas.',
  place: 'Compás {measure}, tiempo {beat}, {hand}',
  hands: { right: 'mano derecha', left: 'mano izquierda' },
  signs: 'Qué significan los signos',
  ribbon:
    'La banda bajo las notas muestra el antebrazo desde arriba: arriba es hacia el fondo de las teclas, abajo hacia el pianista.',
  signIn: 'el antebrazo entra con esta nota, 5 mm o más',
  signOut: 'el antebrazo sale con esta nota, 5 mm o más',
  signStays: 'el antebrazo se queda más o menos donde está',
  signBlack: 'sombreado: aquí la punta del 3 está entre las teclas negras',
  signLifted: 'a trazos: la mano está fuera de las teclas y libre',
  signUnder: 'un arco bajo la banda: el pulgar pasa, aquí detrás del 3',
  signOver: 'un arco sobre la banda: un dedo pasa por encima del pulgar, aquí el 3',
  signCarry:
    'la línea entre los círculos es el brazo a lo largo del teclado; un círculo es una tecla que se toca',
  signView:
    'En el teclado un círculo continuo es un dedo que toca, uno a trazos un dedo que mantiene, uno de puntos un dedo que ya se ha ido o que va a venir. La línea que cruza las teclas es la profundidad del antebrazo; la flecha de al lado muestra el movimiento.',
  caution: 'Precaución',
  engraved: 'Anotado por Handline {version}. Grabado con verovio, software libre bajo LGPL 3.0 o posterior.',
};
