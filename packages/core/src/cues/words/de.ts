import type { Words } from '../keys.js';

const SHARPENED = ['C', 'D', 'E', 'F', 'G', 'A', 'H'] as const;
const FLATTENED = ['Ces', 'Des', 'Es', 'Fes', 'Ges', 'As', 'B'] as const;
const TWICE_FLATTENED = ['Ceses', 'Deses', 'Eses', 'Feses', 'Geses', 'Asas', 'Heses'] as const;

/** Cis, Des, B, H, Fisis: common practice. */
function noteName(step: number, alter: number): string {
  if (alter >= 0) return `${SHARPENED[step]}${'is'.repeat(alter)}`;
  return alter === -1 ? FLATTENED[step]! : TWICE_FLATTENED[step]!;
}

export const german: Words = {
  cues: {
    'thumb-passes': 'unter',
    'over-thumb': 'über',
    'hand-over': 'übergreifen',
    'hand-under': 'untergreifen',
    in: 'hinein',
    'far-in': 'weit hinein',
    'further-in': 'weiter hinein',
    out: 'heraus',
    'far-out': 'weit heraus',
    'further-out': 'weiter heraus',
    lean: 'leicht hinein',
    'arm-right': 'dann nach rechts',
    'arm-left': 'dann nach links',
    'wrist-rises': 'Handgelenk heben',
    'wrist-level': 'Handgelenk senken',
    rotate: 'rollen',
    'turn-thumb': 'zum Daumen',
    'turn-fifth': 'zum 5. Finger',
    'turn-afresh': 'neu drehen',
  },
  full: {
    'thumb-passes': 'untersetzen',
    'over-thumb': 'übersetzen',
    in: 'Unterarm hinein',
    'far-in': 'Unterarm weit hinein',
    out: 'Unterarm heraus',
    'far-out': 'Unterarm weit heraus',
    lean: 'Unterarm leicht hinein',
  },
  meanings: {
    'thumb-passes': 'der Daumen geht hinter dem spielenden Finger vorbei',
    'over-thumb': 'ein Finger geht über den Daumen',
    'hand-over': 'diese Hand greift über die andere',
    'hand-under': 'diese Hand bleibt unter der anderen',
    in: 'der Unterarm bewegt sich zur Tastenklappe hin',
    'far-in': 'ein weites Stück zur Tastenklappe hin',
    'further-in': 'noch weiter zur Tastenklappe hin',
    out: 'der Unterarm bewegt sich von der Tastenklappe weg',
    'far-out': 'ein weites Stück von der Tastenklappe weg',
    'further-out': 'noch weiter von der Tastenklappe weg',
    lean: 'das Gewicht rückt ein wenig über die Taste',
    'arm-right': 'von dieser Note an wandert der Arm nach rechts',
    'arm-left': 'von dieser Note an wandert der Arm nach links',
    'wrist-rises': 'das Handgelenk steigt mit jedem Finger ein wenig',
    'wrist-level': 'das Handgelenk kehrt auf seine Höhe zurück',
    rotate: 'der Unterarm dreht sich mit den Noten hin und her',
    'turn-thumb': 'der Unterarm dreht sich zur Daumenseite',
    'turn-fifth': 'der Unterarm dreht sich zur Kleinfingerseite',
    'turn-afresh': 'kein Schwung mehr da: die Drehung neu vorbereiten',
  },
  dashes: 'die Bewegung geht weiter, bis zum Ende der Striche',
  hands: { right: 'r.H.', left: 'l.H.' },
  takes: { right: 'die rechte Hand übernimmt diese Noten', left: 'die linke Hand übernimmt diese Noten' },
  reasons: {
    thumb: 'der Daumen',
    arm: 'der Arm',
    own: { in: '{mover} geht hinein: {why}', out: '{mover} kommt heraus: {why}' },
    ready: {
      in: '{mover} geht hinein, gleich kommt {coming}: {why}',
      out: '{mover} kommt heraus, gleich kommt {coming}: {why}',
    },
    evenly: {
      in: '{mover} geht hinein: der Arm bewegt sich gleichmäßig weiter',
      out: '{mover} kommt heraus: der Arm bewegt sich gleichmäßig weiter',
    },
    causes: {
      'black-key': '{key} ist eine schwarze Taste',
      'front-of-black-key': '{key} spielt sich weiter vorn leichter',
      'hold-for-short-finger': 'der kurze Finger braucht Halt auf {key}',
      'off-the-edge': 'der Finger läge zu nah an der Kante von {key}',
      'between-black-keys': '{key} liegt zwischen zwei schwarzen Tasten',
      'beside-black-key': 'neben {key} liegt eine schwarze Taste',
    },
    noteName,
  },
  caution:
    'Fingersatz und Hinweise sind Vorschläge. Bei Schmerz, Taubheit oder Ermüdung aufhören. Was passt, entscheidet eine ausgebildete Lehrkraft; bei Beschwerden ärztlichen Rat einholen.',
};
