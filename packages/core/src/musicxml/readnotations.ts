import type { Finger, Ornament, PrintedDigit } from '../score/model.js';
import type { XmlElement } from './tree.js';

/** What the `<notations>` of one note say. */
export interface Notations {
  digits: PrintedDigit[];
  /** A `<fingering>` with several digits of which it is not clear which one is this note's. */
  unclearDigits: boolean;
  staccato: boolean;
  fermata: boolean;
  slurStart: boolean;
  slurStop: boolean;
  arpeggiate: boolean;
  ornaments: Ornament[];
  tiedStart: boolean;
  tiedStop: boolean;
}

/** MusicXML's ornaments by the movement that they ask of the hand. */
const ORNAMENTS: Readonly<Record<string, Ornament>> = {
  'trill-mark': 'trill-mark',
  shake: 'trill-mark',
  turn: 'turn',
  'vertical-turn': 'turn',
  'delayed-turn': 'delayed-turn',
  'inverted-turn': 'inverted-turn',
  'delayed-inverted-turn': 'inverted-turn',
  'inverted-vertical-turn': 'inverted-turn',
  mordent: 'mordent',
  'inverted-mordent': 'inverted-mordent',
  tremolo: 'tremolo',
};

export function emptyNotations(): Notations {
  return {
    digits: [],
    unclearDigits: false,
    staccato: false,
    fermata: false,
    slurStart: false,
    slurStop: false,
    arpeggiate: false,
    ornaments: [],
    tiedStart: false,
    tiedStop: false,
  };
}

/** Adds one `<notations>` element; a note may have several. */
export function readNotations(
  element: XmlElement,
  into: Notations,
  isOurs: (fingering: XmlElement) => boolean,
): void {
  for (const child of element.children) {
    switch (child.name) {
      case 'tied':
        readTied(child.attribute('type'), into);
        break;
      case 'slur':
        if (child.attribute('type') === 'start') into.slurStart = true;
        if (child.attribute('type') === 'stop') into.slurStop = true;
        break;
      case 'fermata':
        into.fermata = true;
        break;
      case 'arpeggiate':
        into.arpeggiate = true;
        break;
      case 'articulations':
        for (const mark of child.children) {
          if (mark.name === 'staccato' || mark.name === 'staccatissimo' || mark.name === 'spiccato')
            into.staccato = true;
        }
        break;
      case 'ornaments':
        for (const mark of child.children) {
          const ornament = ORNAMENTS[mark.name];
          if (ornament !== undefined && Object.hasOwn(ORNAMENTS, mark.name)) into.ornaments.push(ornament);
        }
        break;
      case 'technical':
        for (const mark of child.children) if (mark.name === 'fingering') readFingering(mark, into, isOurs);
        break;
    }
  }
}

export function readTied(type: string | undefined, into: Pick<Notations, 'tiedStart' | 'tiedStop'>): void {
  if (type === 'start' || type === 'continue') into.tiedStart = true;
  if (type === 'stop' || type === 'continue') into.tiedStop = true;
}

// One digit, or several joined by a dash (substitution) or by a slash or in brackets (alternate); common practice.
const DIGITS = /^([1-5])((?:\s*(?:[-–—_‿~]|\/|\()\s*[1-5](?:\s*\))?)*)$/;
const FOLLOWING = /([-–—_‿~]|\/|\()\s*([1-5])/g;

/** Longer texts are no digits. */
const LONGEST_DIGITS = 40;

function readFingering(
  element: XmlElement,
  into: Notations,
  isOurs: (fingering: XmlElement) => boolean,
): void {
  const text = element.text.trim();
  if (text.length > LONGEST_DIGITS) return;
  const match = DIGITS.exec(text.replace(/^\(\s*([1-5])\s*\)$/, '$1'));
  if (match === null) {
    if (/[1-5]\D+[1-5]|^[1-5]{2,}$/.test(text)) into.unclearDigits = true;
    return;
  }
  const common = { span: element.span, ours: isOurs(element) };
  into.digits.push({
    ...common,
    finger: Number(match[1]) as Finger,
    substitution: element.attribute('substitution') === 'yes',
    alternate: element.attribute('alternate') === 'yes',
  });
  for (const [, sign, digit] of (match[2] ?? '').matchAll(FOLLOWING)) {
    const alternate = sign === '/' || sign === '(';
    into.digits.push({ ...common, finger: Number(digit) as Finger, substitution: !alternate, alternate });
  }
}
