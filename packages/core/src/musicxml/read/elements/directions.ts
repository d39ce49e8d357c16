import type { XmlElement } from '../../xml/tree.js';
import { quartersOfType } from './duration.js';
import { decimal } from './number.js';

/** What one `<direction>` or `<sound>` says that matters to the analysis. */
export interface DirectionFacts {
  tempo?: number;
  pedal?: 'down' | 'up' | 'change';
  hand?: 'right' | 'left';
}

/** Tempi outside these quarter notes a minute are taken for mistakes (metronomes go from about 10 to 400, from memory). */
const SLOWEST = 4;
const FASTEST = 1000;

/**
 * Reads the children of a `<direction>`; a sounding tempo or pedal counts more than the printed one.
 *
 * @param passesOver tells words that govern no hand
 */
export function readDirection(
  direction: XmlElement,
  passesOver: (words: XmlElement) => boolean,
): DirectionFacts {
  const facts: DirectionFacts = {};
  for (const type of direction.all('direction-type')) {
    for (const mark of type.children) {
      if (mark.name === 'metronome') withTempo(facts, metronomeTempo(mark));
      else if (mark.name === 'pedal') withPedal(facts, mark.attribute('type'));
      else if (mark.name === 'words' && !passesOver(mark)) {
        const hand = handOfWords(mark.text);
        if (hand !== undefined) facts.hand = hand;
      }
    }
  }
  for (const sound of direction.all('sound')) Object.assign(facts, readSound(sound));
  return facts;
}

export function readSound(sound: XmlElement): DirectionFacts {
  const facts: DirectionFacts = {};
  withTempo(facts, decimal(sound.attribute('tempo')));
  const damper = sound.attribute('damper-pedal');
  if (damper !== undefined) facts.pedal = damper === 'no' || decimal(damper) === 0 ? 'up' : 'down';
  return facts;
}

function withTempo(facts: DirectionFacts, tempo: number | undefined): void {
  if (tempo !== undefined && tempo >= SLOWEST && tempo <= FASTEST) facts.tempo = tempo;
}

function withPedal(facts: DirectionFacts, type: string | undefined): void {
  if (type === 'start' || type === 'resume') facts.pedal = 'down';
  else if (type === 'stop' || type === 'discontinue') facts.pedal = 'up';
  else if (type === 'change') facts.pedal = 'change';
}

/** Quarter notes a minute of `beat unit = number`; `ca. 120` and `112-120` give their first number. */
function metronomeTempo(metronome: XmlElement): number | undefined {
  const unit = quartersOfType(metronome.textOf('beat-unit'));
  const perMinute = /\d+(?:\.\d+)?/.exec(metronome.textOf('per-minute') ?? '')?.[0];
  if (unit === undefined || perMinute === undefined) return undefined;
  let dots = 0;
  for (const child of metronome.children) {
    if (child.name === 'per-minute') break;
    if (child.name === 'beat-unit-dot') dots += 1;
  }
  return Number(perMinute) * unit * (2 - 1 / 2 ** Math.min(dots, 4));
}

// Words for "right hand" and "left hand" and their abbreviations in the languages of engraved music (common practice).
const RIGHT =
  /^\(?(?:r\.\s*h\.?|m\.\s*d\.?|r\.?\s?h\.?$|m\.?\s?d\.?$|right hand|rechte hand|main droite|mano d(?:estra|erecha|\.)|la destra|destra$)/i;
const LEFT =
  /^\(?(?:l\.\s*h\.?|m\.\s*[sgi]\.?|l\.?\s?h\.?$|m\.?\s?[sg]\.?$|left hand|linke hand|main gauche|mano s(?:inistra|\.)|mano izquierda|la sinistra|sinistra$)/i;

/** The hand that words such as "m.s.", "R.H." or "linke Hand" ask for. */
function handOfWords(words: string): 'right' | 'left' | undefined {
  const text = words.trim();
  if (RIGHT.test(text)) return 'right';
  return LEFT.test(text) ? 'left' : undefined;
}
