import type { MessageWords } from './words.js';

export const spanish: MessageWords = {
  place: {
    part: 'parte {name}',
    measure: 'compás {name}',
    line: 'línea {number}',
    column: 'columna {number}',
  },
  hands: { right: 'la mano derecha', left: 'la mano izquierda' },
  piano: 'el piano',
  and: ' y ',
  or: ', o ',
  orOmit: ', u ',
  more: ' y {count} más',
  places: ' (el primero de {count} lugares)',
  reading: {
    attributes: 'las <divisions> o la indicación de compás no sirven',
    'no-forward': '<forward> no tiene duración positiva',
    'no-backup': '<backup> no tiene duración positiva',
    'backup-too-far': '<backup> retrocede más allá del comienzo de su compás; se detiene allí',
    order: 'los elementos de una <note> no están en el orden que exige MusicXML',
    'lone-chord-member': 'una nota de acorde no tiene primera nota a la que unirse',
    'staff-beyond':
      'una nota está en un pentagrama que no existe (la parte tiene {staves}); ninguna mano la toca',
    'unreadable-pitch': 'una altura (<pitch>) es ilegible; su nota queda como está',
    microtone: 'una altura cae entre dos teclas; su nota queda como está',
    'out-of-range': 'una nota está fuera del teclado (A0 a C8); queda como está',
    'empty-note': 'una nota tiene la duración 0',
    'empty-rest': 'un silencio tiene la duración 0',
    'no-duration': 'una nota no tiene duración utilizable; vale su <type>',
    'no-divisions': 'falta <divisions>; se supone 1 por negra',
    rounded: 'los tiempos se redondean: las <divisions> son demasiado finas',
    'repeated-id': 'una parte anterior tiene el mismo id; esta se lee como su continuación',
  },
  emptyStaff:
    'la parte tiene {staves} pentagramas, pero sus notas no nombran ninguno y están todas en el primero: {hand} no tiene nada que tocar; dé un <staff> a las notas del otro pentagrama',
  noParts: 'la partitura no tiene partes; no se marca nada',
  noPiano: 'no se encontró ninguna parte de piano; no se marca nada; nombre la parte con --part ({ids})',
  nothingThere: '{who} no tiene notas; no se marca nada',
  nothingInMeasures: '{who} no tiene notas en los compases {from}-{to}; no se marca nada',
  handMoved:
    '{count} notas en el otro pentagrama quedan lejos de la mano de su voz; las toca la mano de ese pentagrama',
  handMovedOne:
    'una nota en el otro pentagrama queda lejos de la mano de su voz; la toca la mano de ese pentagrama',
  misfit: 'varios números en una nota no encajan en su acorde; quedan impresos y no se usan',
  unreachable: 'tiempo {beat}: {hand} no alcanza todas las teclas; es posible: {ways}',
  conflict:
    'tiempo {beat}: {hand} no puede sostener juntos los números del archivo ({digits}: alcance u orden de los dedos); se conservan',
  digit: '{finger} en {key}',
  ways: { 'other-hand': '{hand} toma {keys}', roll: 'arpegiar el acorde', omit: 'omitir {keys}' },
  upper: 'el {key} superior',
  lower: 'el {key} inferior',
  takes: '{hand} toma {keys} del acorde de la otra',
};
