import type { MessageWords } from './words.js';

export const french: MessageWords = {
  place: {
    part: 'partie {name}',
    measure: 'mesure {name}',
    line: 'ligne {number}',
    column: 'colonne {number}',
  },
  hands: { right: 'la main droite', left: 'la main gauche' },
  piano: 'le piano',
  and: ' et ',
  or: ', ou ',
  orOmit: ', ou ',
  more: ' et {count} autres',
  places: ' (premier endroit sur {count})',
  reading: {
    attributes: 'les <divisions> ou le chiffrage de mesure sont inutilisables',
    'no-forward': '<forward> n’a pas de durée positive',
    'no-backup': '<backup> n’a pas de durée positive',
    'backup-too-far': '<backup> recule au-delà du début de sa mesure ; il s’y arrête',
    order: 'les éléments d’une <note> ne sont pas dans l’ordre qu’exige MusicXML',
    'lone-chord-member': 'une note d’accord n’a pas de première note à rejoindre',
    'staff-beyond':
      'une note est sur une portée qui n’existe pas (la partie en a {staves}) ; aucune main ne la joue',
    'unreadable-pitch': 'une hauteur (<pitch>) est illisible ; sa note reste telle quelle',
    microtone: 'une hauteur tombe entre deux touches ; sa note reste telle quelle',
    'out-of-range': 'une note est hors du clavier (A0 à C8) ; elle reste telle quelle',
    'empty-note': 'une note a la durée 0',
    'empty-rest': 'un silence a la durée 0',
    'no-duration': 'une note n’a pas de durée utilisable ; son <type> en tient lieu',
    'no-divisions': '<divisions> manque ; on suppose 1 par noire',
    rounded: 'les durées sont arrondies : les <divisions> sont trop fines',
    'repeated-id': 'une partie précédente a le même id ; celle-ci est lue comme sa suite',
  },
  emptyStaff:
    'la partie a {staves} portées, mais ses notes n’en nomment aucune et sont toutes sur la première : {hand} n’a rien à jouer ; donnez un <staff> aux notes de l’autre portée',
  noParts: 'la partition n’a aucune partie ; rien n’est annoté',
  noPiano: 'aucune partie de piano trouvée ; rien n’est annoté ; nommez la partie avec --part ({ids})',
  nothingThere: '{who} n’a pas de notes ; rien n’est annoté',
  nothingInMeasures: '{who} n’a pas de notes dans les mesures {from}-{to} ; rien n’est annoté',
  handMoved:
    '{count} notes sur l’autre portée sont hors d’atteinte de la main de leur voix ; la main de cette portée les joue',
  handMovedOne:
    'une note sur l’autre portée est hors d’atteinte de la main de sa voix ; la main de cette portée la joue',
  misfit:
    'plusieurs chiffres sur une note ne conviennent pas à son accord ; ils restent imprimés et ne comptent pas',
  unreachable: 'temps {beat} : {hand} n’atteint pas toutes les touches ; possible : {ways}',
  conflict:
    'temps {beat} : {hand} ne peut pas tenir ensemble les chiffres du fichier ({digits} : étendue ou ordre des doigts) ; ils restent',
  digit: '{finger} sur {key}',
  ways: { 'other-hand': '{hand} prend {keys}', roll: 'arpéger l’accord', omit: 'omettre {keys}' },
  upper: 'le {key} supérieur',
  lower: 'le {key} inférieur',
  takes: '{hand} prend {keys} de l’accord de l’autre',
};
