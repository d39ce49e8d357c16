import type { ReviewWords } from './words.js';

export const french: ReviewWords = {
  levels: {
    'worth changing': 'à changer',
    'worth a look': 'à regarder',
    remark: 'remarque',
  },
  kinds: {
    sideways: 'de côté',
    'in-and-out': 'avant-arrière',
    crossings: 'passages',
    stretch: 'extension',
    curl: 'courbure',
    'one-finger': 'même doigt',
    other: 'effort',
  },
  hands: {
    right: 'main droite',
    left: 'main gauche',
  },
  causes: {
    unholdable:
      '{other} sur {otherKey} et {finger} sur {key} : aucune main ne tient cela ensemble ; un chiffre est peut-être placé sur la mauvaise note, ou destiné à l’autre main',
    'held-key-lost': '{other} doit lâcher {otherKey}, qui est tenu, quand {finger} joue {key}',
    'other-hand':
      '{finger} sur {key} ne laisse aucun doigt pour {otherKey} : le chiffre appartient peut-être à une autre note, ou l’autre main prend {otherKey}',
    'thumb-late': 'le pouce arrive en retard : il reste {mm} mm au bras jusqu’à {key} quand {other} joue',
    'thumb-under-palm':
      'le pouce est tiré sous la paume : {mm} mm plus loin derrière {other} que ce qui est confortable',
    'long-fingers-cross': '{finger} sur {key} et {other} sur {otherKey} doivent se croiser',
    'needless-crossing':
      '{other} puis {finger} : un passage inutile, car ces touches se trouvent sous les cinq doigts',
    'fast-repetition': '{finger} sur {key} : une répétition plus rapide qu’un seul doigt ne la fait à l’aise',
    'weak-trill': '{other} et {finger} se fatiguent dans un tel trille',
    'one-finger-moves': '{finger} doit quitter {otherKey} trop tôt pour sauter sur {key}',
    stretch:
      '{other} sur {otherKey} et {finger} sur {key} sont presque aussi écartés que cette main le permet',
    'thumb-on-black':
      '{finger} va vers l’intérieur sur une touche noire, {key}, alors que la main est au bord des touches, sur {otherKey}',
    'between-black-keys':
      '{finger} se trouve entre deux touches noires, car {other} sur {otherKey} retient la main à l’intérieur',
    curled: '{finger} doit se courber, car {other} sur {otherKey} retient la main à l’intérieur',
    'over-reaching':
      '{finger} doit s’étendre vers l’intérieur pour {key}, car {other} sur {otherKey} retient la main dehors',
    'forearm-travels': '{finger} sur {key} : l’avant-bras doit avancer ou reculer de {mm} mm',
    'scale-fingering': 'c’est le doigté de la gamme entière, mais la ligne change de sens sur {key}',
    unlike: 'mesure {measure}, la même figure porte ici {other}',
    'hands-in-the-way': 'les mains se gênent : {other} de l’autre main est sur {otherKey}',
    'hand-moves': '{other} sur {otherKey}, puis {finger} sur {key} : la main doit se déplacer de {mm} mm',
  },
  alone: {
    'other-hand': 'ces chiffres semblent être ceux de l’autre main',
    unholdable:
      'aucune main ne tient ces chiffres ensemble ; l’un d’eux est peut-être placé sur la mauvaise note, ou destiné à l’autre main',
    'between-black-keys': '{finger} se trouve entre deux touches noires',
    curled: '{finger} doit se courber',
    'over-reaching': '{finger} doit s’étendre vers l’intérieur pour {key}',
    'hand-moves': 'la main doit se déplacer pour amener {finger} sur {key}',
  },
  beyond: '{other} sur {otherKey} et {finger} sur {key} sont plus écartés que cette main ne le permet',
  instead: '{finger} sur {key} au lieu de {printed}',
  row: '{fingers} de {key} à {last}',
  times: '{text} ({count} fois)',
  between: ' ; ',
  easier: 'Plus facile : {remedy}. Gain : {mm} mm',
  possible: 'Possible : {remedy}',
  or: 'Ou bien : {remedy}',
  noLongerOut: '{finger} n’a plus à ressortir',
  noLongerIn: '{finger} n’a plus à aller vers l’intérieur',
  bothWork: 'Les deux conviennent ; le doigté imprimé demande {mm} mm de plus, surtout : {kind}',
  travelsMore:
    'Les deux conviennent ; avec le doigté imprimé, l’avant-bras parcourt {mm} mm de plus vers l’intérieur et vers soi',
  keyAtBeat: '{key} (temps {beat})',
  keyInMeasure: '{key} (mes. {measure}, temps {beat})',
  place: '[{number}] mes. {measure}, temps {beat}, {hand}, {key}',
  head: '{digits} notes sur {notes} ont un chiffre. Mouvement : {printed} mm tel qu’imprimé, {least} mm au minimum (passages avec chiffres : {passages}).',
  headOfOne:
    '{digits} note sur {notes} a un chiffre. Mouvement : {printed} mm tel qu’imprimé, {least} mm au minimum (passages avec chiffres : {passages}).',
  noDigits: 'Aucun chiffre imprimé : il n’y a rien à juger.',
  inferred:
    'Les {count} autres notes sont complétées pour convenir au mieux aux chiffres imprimés ; les chiffres déduits sont entre parenthèses.',
  inferredOne:
    'L’autre note est complétée pour convenir au mieux aux chiffres imprimés ; le chiffre déduit est entre parenthèses.',
  allDigits: 'Tous les chiffres, ceux qui sont déduits entre parenthèses, un trait par barre de mesure',
  outOfReach: 'Au-delà de l’écart d’une main, si bien qu’une touche reste sans doigt : {places}.',
  noFindings: 'Rien à changer : aucun autre chiffre n’économise assez pour être signalé.',
  more: '... et {count} de plus dans le rapport complet',
  table: 'Passages qui dépassent le plus le minimum, mm tel qu’imprimé / au minimum',
  passage: 'passage',
  all: 'tout',
  measures: '{hand} mes. {from}-{to}',
  measure: '{hand} mes. {from}',
  others: 'les autres',
  feel: 'Le mouvement n’est pas tout : on garde ce qui va le mieux dans la main.',
  compared: '{place} : {first} mm tel qu’imprimé, {second} mm avec les autres chiffres',
  takesMore: 'les autres demandent {mm} mm de plus, surtout : {kind}',
  takesLess: 'les autres demandent {mm} mm de moins, surtout : {kind}',
  takesSame: 'les deux demandent le même mouvement ; les deux conviennent',
  whole: 'Doigtés entiers : {place}',
  fingerings: {
    printed: 'imprimé',
    movement: 'peu de mouvement',
    usual: 'usuel dans les éditions',
    scale: 'comme dans la gamme entière',
  },
  wholeHead: '{kind} : {size}',
  wholeSame: '{mm} mm',
  wholeMore: '{mm} mm, {more} de plus',
  wholeLess: '{mm} mm, {more} de moins',
  lower: '{key} (en bas)',
  upper: '{key} (en haut)',
  scores: 'Partitions, les plus discutables en premier',
  score: 'partition',
  digits: 'chiffres',
  moreMovement: 'mouvement en plus',
};
