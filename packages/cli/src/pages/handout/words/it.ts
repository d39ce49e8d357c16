import type { HandoutWords } from './texts.js';

export const italian: HandoutWords = {
  untitled: 'Foglio di studio',
  student: 'Per {name}',
  teacherNotes: 'Note dell’insegnante',
  contents: 'Indice',
  music: 'La musica',
  measures: 'Battute {from}–{to}',
  measure: 'Battuta {from}',
  asPrinted: 'come stampato',
  easier: 'più facile',
  compared:
    'Movimento in queste battute: {printed} mm come stampato, {easier} mm con la diteggiatura più facile.',
  keyboard: 'Sulla tastiera',
  findings: 'La diteggiatura stampata',
  noFindings: 'Nessun dito stampato richiede sensibilmente più movimento di un altro.',
  moreFindings: 'Ce ne sono altre {count}; «handline review» le elenca tutte.',
  place: 'Battuta {measure}, movimento {beat}, {hand}',
  hands: { right: 'mano destra', left: 'mano sinistra' },
  signs: 'Che cosa vogliono dire i segni',
  ribbon:
    'La fascia sotto le note mostra l’avambraccio dall’alto: in alto il fondo dei tasti, in basso chi suona.',
  signIn: 'l’avambraccio entra con questa nota, di 5 mm o più',
  signOut: 'l’avambraccio esce con questa nota, di 5 mm o più',
  signStays: 'l’avambraccio resta più o meno dov’è',
  signBlack: 'ombreggiato: qui la punta del 3 sta tra i tasti neri',
  signLifted: 'tratteggiato: la mano è fuori dai tasti e libera',
  signUnder: 'un arco sotto la fascia: il pollice passa, qui dietro il 3',
  signOver: 'un arco sopra la fascia: un dito passa sopra il pollice, qui il 3',
  signCarry: 'la linea tra i cerchi è il braccio lungo la tastiera; un cerchio è un tasto suonato',
  signView:
    'Sulla tastiera un cerchio pieno è un dito che suona, uno tratteggiato un dito che tiene, uno punteggiato un dito che se n’è andato o che sta per arrivare. La linea attraverso i tasti è la profondità dell’avambraccio; la freccia accanto mostra il movimento.',
  caution: 'Attenzione',
  engraved:
    'Annotato da Handline {version}. Incisione: verovio, software libero con licenza LGPL 3.0 o successiva.',
};
