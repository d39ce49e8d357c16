import type { ReviewWords } from './words.js';

export const german: ReviewWords = {
  levels: {
    'worth changing': 'besser ändern',
    'worth a look': 'einen Blick wert',
    remark: 'Bemerkung',
  },
  kinds: {
    sideways: 'seitwärts',
    'in-and-out': 'hinein/heraus',
    crossings: 'Unter-/Übersetzen',
    stretch: 'Spannung',
    curl: 'Krümmung',
    'one-finger': 'derselbe Finger',
    other: 'Mühe',
  },
  hands: {
    right: 'rechte Hand',
    left: 'linke Hand',
  },
  causes: {
    unholdable:
      '{other} auf {otherKey} und {finger} auf {key} kann keine Hand zusammen greifen: eine Ziffer steht wohl an der falschen Note oder gehört der anderen Hand',
    'held-key-lost': '{other} muss das gehaltene {otherKey} loslassen, wenn {finger} {key} anschlägt',
    'other-hand':
      '{finger} auf {key} lässt keinen Finger für {otherKey}: die Ziffer gehört wohl zu einer anderen Note, oder die andere Hand nimmt {otherKey}',
    'thumb-late': 'der Daumen kommt zu spät: dem Arm fehlen noch {mm} mm bis {key}, wenn {other} spielt',
    'thumb-under-palm':
      'der Daumen wird unter die Handfläche gezogen: {mm} mm weiter hinter {other}, als bequem ist',
    'long-fingers-cross': '{finger} auf {key} und {other} auf {otherKey} müssen sich kreuzen',
    'needless-crossing':
      '{other}, dann {finger}: hier wird ohne Not unter- oder übergesetzt, denn diese Tasten liegen unter fünf Fingern',
    'fast-repetition': '{finger} schlägt {key} schneller wieder an, als ein Finger es bequem kann',
    'weak-trill': '{other} und {finger} ermüden in einem solchen Triller',
    'one-finger-moves': '{finger} muss {otherKey} vorzeitig verlassen und auf {key} springen',
    stretch:
      '{other} auf {otherKey} und {finger} auf {key} liegen fast so weit auseinander, wie diese Hand greift',
    'thumb-on-black':
      '{finger} geht hinein auf eine schwarze Taste, {key}, während die Hand bei {otherKey} außen ist',
    'between-black-keys':
      '{finger} liegt zwischen zwei schwarzen Tasten, weil {other} auf {otherKey} die Hand innen hält',
    curled: '{finger} muss sich krümmen, weil {other} auf {otherKey} die Hand innen hält',
    'over-reaching':
      '{finger} muss nach {key} hineinreichen, weil {other} auf {otherKey} die Hand außen hält',
    'forearm-travels': '{finger} auf {key}: dafür muss der Unterarm {mm} mm hinein oder heraus',
    'scale-fingering': 'das ist der Fingersatz der ganzen Tonleiter, aber die Linie kehrt bei {key} um',
    unlike: 'bei derselben Figur steht in Takt {measure} an dieser Stelle {other}',
    'hands-in-the-way': 'die Hände sind einander im Weg: dort liegt {other} der anderen Hand auf {otherKey}',
    'hand-moves': '{other} auf {otherKey}, dann {finger} auf {key}: die Hand muss {mm} mm rücken',
  },
  alone: {
    'other-hand': 'diese Ziffern sehen nach der anderen Hand aus',
    unholdable:
      'diese Ziffern kann keine Hand zusammen greifen: eine steht wohl an der falschen Note oder gehört der anderen Hand',
    'between-black-keys': '{finger} liegt zwischen zwei schwarzen Tasten',
    curled: '{finger} muss sich krümmen',
    'over-reaching': '{finger} muss nach {key} hineinreichen',
    'hand-moves': 'die Hand muss rücken, damit {finger} auf {key} kommt',
  },
  beyond: '{other} auf {otherKey} und {finger} auf {key} liegen weiter auseinander, als diese Hand greift',
  instead: '{finger} auf {key} statt {printed}',
  row: '{fingers} von {key} bis {last}',
  times: '{text} ({count}-mal)',
  between: '; ',
  easier: 'Leichter: {remedy}. Spart {mm} mm',
  possible: 'Möglich: {remedy}',
  or: 'Oder: {remedy}',
  noLongerOut: '{finger} muss dann nicht heraus',
  noLongerIn: '{finger} muss dann nicht hinein',
  bothWork: 'Beides geht; der gedruckte Fingersatz braucht {mm} mm mehr, vor allem: {kind}',
  travelsMore:
    'Beides geht; mit dem gedruckten Fingersatz bewegt sich der Unterarm {mm} mm mehr hinein und heraus',
  keyAtBeat: '{key} (Zählzeit {beat})',
  keyInMeasure: '{key} (T. {measure}, Zählzeit {beat})',
  place: '[{number}] T. {measure}, Zählzeit {beat}, {hand}, {key}',
  head: '{digits} von {notes} Noten haben Ziffern. Bewegung: {printed} mm wie gedruckt, {least} mm mindestens (Stellen mit Ziffern: {passages}).',
  headOfOne:
    '{digits} von {notes} Noten hat eine Ziffer. Bewegung: {printed} mm wie gedruckt, {least} mm mindestens (Stellen mit Ziffern: {passages}).',
  noDigits: 'Keine Ziffern im Druck, also gibt es nichts zu beurteilen.',
  inferred:
    'Die anderen {count} Noten sind so ergänzt, dass sie am besten zu den gedruckten Ziffern passen; ergänzte Ziffern stehen in Klammern.',
  inferredOne:
    'Die andere Note ist so ergänzt, dass sie am besten zu den gedruckten Ziffern passt; die ergänzte Ziffer steht in Klammern.',
  allDigits: 'Alle Ziffern, ergänzte in Klammern, ein Strich für jeden Taktstrich',
  outOfReach: 'Weiter, als eine Hand greift, sodass eine Taste keinen Finger hat: {places}.',
  noFindings: 'Nichts zu ändern: keine andere Ziffer spart genug, um sie zu nennen.',
  more: '... und {count} weitere im vollen Bericht',
  table: 'Stellen, die am meisten über dem Mindestmaß liegen, mm wie gedruckt / mindestens',
  passage: 'Stelle',
  all: 'alles',
  measures: '{hand} T. {from}-{to}',
  measure: '{hand} T. {from}',
  others: 'die anderen',
  feel: 'Bewegung ist nicht alles: Was sich in der Hand besser anfühlt, das nimmt man.',
  compared: '{place}: {first} mm wie gedruckt, {second} mm mit den anderen Ziffern',
  takesMore: 'die anderen brauchen {mm} mm mehr, vor allem: {kind}',
  takesLess: 'die anderen brauchen {mm} mm weniger, vor allem: {kind}',
  takesSame: 'beide brauchen gleich viel Bewegung; beides geht',
  whole: 'Ganze Fingersätze: {place}',
  fingerings: {
    printed: 'gedruckt',
    movement: 'wenig Bewegung',
    usual: 'im Druck üblich',
    scale: 'wie in der ganzen Tonleiter',
  },
  wholeHead: '{kind}: {size}',
  wholeSame: '{mm} mm',
  wholeMore: '{mm} mm, {more} mehr',
  wholeLess: '{mm} mm, {more} weniger',
  lower: '{key} (unten)',
  upper: '{key} (oben)',
  scores: 'Stücke, die bedenklichsten zuerst',
  score: 'Stück',
  digits: 'Ziffern',
  moreMovement: 'Mehrbewegung',
};
