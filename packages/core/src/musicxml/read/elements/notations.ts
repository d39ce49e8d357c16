import type { Finger, Ornament, PrintedDigit } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';

/** What the `<notations>` of one note say. */
export interface Notations {
  digits: PrintedDigit[];
  /** Several digits of which it is not clear which one is this note's, in the order of the file; else empty. */
  stack: Finger[];
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
    stack: [],
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

/** Separate plain digits at one head are a stack as well. */
export function stackOf({ digits, stack }: Notations): readonly Finger[] {
  if (stack.length === 0 && digits.length < 2) return stack;
  const all = [...digits.filter(isPlain).map(({ finger }) => finger), ...stack];
  return all.length > 1 ? all : [];
}

function isPlain({ substitution, alternate }: PrintedDigit): boolean {
  return !substitution && !alternate;
}

/** Adds one `<notations>` element; a note may have several. */
export function readNotations(element: XmlElement, into: Notations): void {
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
          if (ornament !== undefined && Object.hasOwn(ORNAMENTS, mark.name))
            into.ornaments.push(ornament === 'tremolo' ? tremolo(mark.attribute('type')) : ornament);
        }
        break;
      case 'technical':
        for (const mark of child.children) if (mark.name === 'fingering') readFingering(mark, into);
        break;
    }
  }
}

/** A tremolo between two notes has a start and a stop; any other is one note's own. */
function tremolo(type: string | undefined): Ornament {
  return type === 'start' || type === 'stop' ? `tremolo-${type}` : 'tremolo';
}

export function readTied(type: string | undefined, into: Pick<Notations, 'tiedStart' | 'tiedStop'>): void {
  if (type === 'start' || type === 'continue') into.tiedStart = true;
  if (type === 'stop' || type === 'continue') into.tiedStop = true;
}

// One digit, or several joined by a dash (substitution) or by a slash or in brackets (alternate); common practice.
const DIGITS = /^([1-5])((?:\s*(?:[-–—_‿~]|\/|\()\s*[1-5](?:\s*\))?)*)$/;
const FOLLOWING = /([-–—_‿~]|\/|\()\s*([1-5])/g;

/** Digits one above the other or side by side. */
const STACK = /^[1-5](?:[\s,;.]*[1-5])+$/;

/** Longer texts are not digits. */
const LONGEST_DIGITS = 40;

function readFingering(element: XmlElement, into: Notations): void {
  const text = element.text.trim();
  if (text.length > LONGEST_DIGITS) return;
  const match = DIGITS.exec(text.replace(/^\(\s*([1-5])\s*\)$/, '$1'));
  if (match === null) {
    if (STACK.test(text))
      into.stack.push(...(text.match(/[1-5]/g) ?? []).map((digit) => Number(digit) as Finger));
    return;
  }
  const { span } = element;
  into.digits.push({
    span,
    finger: Number(match[1]) as Finger,
    substitution: element.attribute('substitution') === 'yes',
    alternate: element.attribute('alternate') === 'yes',
  });
  for (const [, sign, digit] of (match[2] ?? '').matchAll(FOLLOWING)) {
    const alternate = sign === '/' || sign === '(';
    into.digits.push({ span, finger: Number(digit) as Finger, substitution: !alternate, alternate });
  }
}
