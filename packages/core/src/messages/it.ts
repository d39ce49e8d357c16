import type { MessageWords } from './words.js';

export const italian: MessageWords = {
  place: {
    part: 'parte {name}',
    measure: 'misura {name}',
    line: 'riga {number}',
    column: 'colonna {number}',
  },
  hands: { right: 'la mano destra', left: 'la mano sinistra' },
  piano: 'il pianoforte',
  and: ' e ',
  or: ', oppure ',
  orOmit: ', oppure ',
  more: ' e altri {count}',
  places: ' (il primo di {count} punti)',
  reading: {
    attributes: 'le <divisions> o il tempo non sono utilizzabili',
    'no-forward': '<forward> non ha una durata positiva',
    'no-backup': '<backup> non ha una durata positiva',
    'backup-too-far': '<backup> torna oltre l’inizio della sua misura; si ferma lì',
    order: 'gli elementi di una <note> non sono nell’ordine che MusicXML richiede',
    'lone-chord-member': 'una nota d’accordo non ha una prima nota a cui unirsi',
    'staff-beyond':
      'una nota è su un pentagramma che non esiste (la parte ne ha {staves}); nessuna mano la suona',
    'unreadable-pitch': 'un’altezza (<pitch>) è illeggibile; la sua nota resta com’è',
    microtone: 'un’altezza cade fra due tasti; la sua nota resta com’è',
    'out-of-range': 'una nota è fuori della tastiera (A0-C8); resta com’è',
    'empty-note': 'una nota ha durata 0',
    'empty-rest': 'una pausa ha durata 0',
    'no-duration': 'una nota non ha una durata utilizzabile; vale il suo <type>',
    'no-divisions': '<divisions> manca; si suppone 1 per semiminima',
    rounded: 'i tempi sono arrotondati: le <divisions> sono troppo fini',
    'repeated-id': 'una parte precedente ha lo stesso id; questa è letta come il suo seguito',
  },
  emptyStaff:
    'la parte ha {staves} pentagrammi, ma le sue note non ne nominano nessuno e stanno tutte sul primo: {hand} non ha niente da suonare; date un <staff> alle note dell’altro pentagramma',
  noParts: 'lo spartito non ha parti; non si segna nulla',
  noPiano: 'nessuna parte di pianoforte trovata; non si segna nulla; nominate la parte con --part ({ids})',
  nothingThere: '{who} non ha note; non si segna nulla',
  nothingInMeasures: '{who} non ha note nelle misure {from}-{to}; non si segna nulla',
  handMoved:
    '{count} note sull’altro pentagramma sono fuori portata della mano della loro voce; le suona la mano di quel pentagramma',
  handMovedOne:
    'una nota sull’altro pentagramma è fuori portata della mano della sua voce; la suona la mano di quel pentagramma',
  misfit: 'più numeri su una nota non si adattano al suo accordo; restano stampati e non si usano',
  unreachable: 'tempo {beat}: {hand} non raggiunge tutti i tasti; è possibile: {ways}',
  conflict:
    'tempo {beat}: {hand} non può tenere insieme i numeri del file ({digits}: estensione od ordine delle dita); restano',
  digit: '{finger} su {key}',
  ways: { 'other-hand': '{hand} prende {keys}', roll: 'arpeggiare l’accordo', omit: 'omettere {keys}' },
  upper: 'il {key} superiore',
  lower: 'il {key} inferiore',
  takes: '{hand} prende {keys} dall’accordo dell’altra',
};
