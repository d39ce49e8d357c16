import type { MessageWords } from './words.js';

export const german: MessageWords = {
  place: { part: 'Stimme {name}', measure: 'Takt {name}', line: 'Zeile {number}', column: 'Spalte {number}' },
  hands: { right: 'die rechte Hand', left: 'die linke Hand' },
  piano: 'das Klavier',
  and: ' und ',
  or: ', oder ',
  orOmit: ', oder ',
  more: ' und {count} weitere',
  places: ' (die erste von {count} Stellen)',
  reading: {
    attributes: 'die <divisions> oder die Taktart sind unbrauchbar',
    'no-forward': '<forward> hat keine positive Dauer',
    'no-backup': '<backup> hat keine positive Dauer',
    'backup-too-far': '<backup> führt hinter den Taktanfang zurück; dort wird angehalten',
    order: 'die Elemente einer <note> stehen nicht in der Reihenfolge, die MusicXML verlangt',
    'lone-chord-member': 'zu einem Akkordton fehlt die erste Note',
    'staff-beyond':
      'eine Note steht auf einem System, das es nicht gibt (die Stimme hat {staves}); keine Hand spielt sie',
    'unreadable-pitch': 'eine Tonhöhe (<pitch>) ist nicht lesbar; ihre Note bleibt, wie sie ist',
    microtone: 'eine Tonhöhe liegt zwischen zwei Tasten; ihre Note bleibt, wie sie ist',
    'out-of-range': 'eine Note liegt außerhalb der Klaviatur (A0 bis C8); sie bleibt, wie sie ist',
    'empty-note': 'eine Note hat die Dauer 0',
    'empty-rest': 'eine Pause hat die Dauer 0',
    'no-duration': 'eine Note hat keine brauchbare Dauer; es gilt ihr <type>',
    'no-divisions': '<divisions> fehlt; angenommen wird 1 je Viertel',
    rounded: 'Zeiten sind gerundet: die <divisions> sind zu fein',
    'repeated-id': 'eine frühere Stimme hat dieselbe id; diese gilt als ihre Fortsetzung',
  },
  emptyStaff:
    'die Stimme hat {staves} Systeme, aber ihre Noten nennen keines und stehen alle im ersten: {hand} hat nichts zu spielen; den Noten des anderen Systems fehlt <staff>',
  noParts: 'das Stück hat keine Stimmen; nichts wird bezeichnet',
  noPiano:
    'keine Klavierstimme gefunden; nichts wird bezeichnet; mit --part ist die Stimme zu nennen ({ids})',
  nothingThere: '{who} hat keine Noten; nichts wird bezeichnet',
  nothingInMeasures: '{who} hat in den Takten {from}-{to} keine Noten; nichts wird bezeichnet',
  handMoved:
    '{count} Noten im anderen System sind für die Hand ihrer Stimme zu weit weg; die Hand jenes Systems spielt sie',
  handMovedOne:
    'eine Note im anderen System ist für die Hand ihrer Stimme zu weit weg; die Hand jenes Systems spielt sie',
  misfit: 'mehrere Ziffern an einer Note passen nicht zu ihrem Akkord; sie bleiben stehen und zählen nicht',
  unreachable: 'Zählzeit {beat}: {hand} erreicht nicht alle Tasten; möglich ist: {ways}',
  conflict:
    'Zählzeit {beat}: {hand} kann die Ziffern der Datei ({digits}) nicht zusammen greifen (Spannweite oder Reihenfolge der Finger); sie bleiben stehen',
  digit: '{finger} auf {key}',
  ways: { 'other-hand': '{hand} nimmt {keys}', roll: 'den Akkord brechen', omit: '{keys} weglassen' },
  upper: 'das obere {key}',
  lower: 'das untere {key}',
  takes: '{hand} nimmt {keys} aus dem Akkord der anderen',
};
