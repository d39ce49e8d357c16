import type { XmlElement } from '../xml/tree.js';
import { mayHaveToken } from './record/token.js';

/** The usual fonts for words of MuseScore 4 and 3, then of browsers. */
const USUAL = 'Edwin,FreeSerif,Times New Roman,serif';
/** A list as the schema wants it (MusicXML 4.0, comma-separated-text). */
const LIST = /^[^,]+(?:, ?[^,]+)*$/;

/** The fonts in which our words are printed: those in which the score prints its own, where it says so. */
export function fontsBefore(root: XmlElement): string {
  const own = root.child('defaults')?.child('word-font')?.attribute('font-family')?.trim() ?? '';
  return LIST.test(own) && !mayHaveToken(own) ? `${own},${USUAL}` : USUAL;
}
