import { DEFAULT_LIMITS } from '../../../options/limits.js';
import { HandlineError } from '../../../score/errors.js';
import { WellFormedness } from '../../xml/check/well-formedness.js';
import { behindContent } from '../../xml/space.js';
import type { XmlElement } from '../../xml/tree.js';
import { ALTERNATE } from '../format.js';
import { isSelfClosed, startTagEnd } from '../layout.js';

const BESIDE_DIRECTION_TYPE = new Set(['direction-type', 'offset', 'voice', 'staff']);

/** The fingerings that stand directly in an element that we may have written. */
export function fingeringsIn(element: XmlElement): readonly XmlElement[] {
  const name = element.name;
  if (name === 'fingering') return [element];
  if (name !== 'technical' && name !== 'notations') return [];
  return element.children.flatMap(fingeringsIn);
}

/** True where nothing but elements, text and white space lies in an element: no comment and no instruction. */
export function isPlain(text: string, element: XmlElement): boolean {
  if (isSelfClosed(text, element)) return true;
  const endTag = text.lastIndexOf('<', element.span.end - 1);
  let at = startTagEnd(text, element);
  if (element.children.length === 0) return text.indexOf('<', at) === endTag;
  for (const child of element.children) {
    const { start, end } = child.span;
    if (behindContent(text, start) > at || !isPlain(text, child)) return false;
    at = end;
  }
  return behindContent(text, endTag) <= at;
}

/** True where an element has no children but fingerings, or one `<technical>` that has none. */
export function holdsFingeringsOnly(element: XmlElement): boolean {
  const name = element.name;
  if (name === 'fingering') return true;
  const inner = name === 'notations' ? 'technical' : 'fingering';
  if (name === 'notations' && element.children.length !== 1) return false;
  return element.children.every((child) => child.name === inner && holdsFingeringsOnly(child));
}

export const DIGIT_CHANGED = "a digit has been changed since we wrote it; it was left as the user's own";

/**
 * True where a `<fingering>` still says what we wrote.
 *
 * @param written its text, behind `ALTERNATE` if it is an alternate one
 */
export function saysDigit(element: XmlElement, written: string): boolean {
  const isAlternate = written.startsWith(ALTERNATE);
  return (
    element.text.trim() === (isAlternate ? written.slice(ALTERNATE.length) : written) &&
    element.attribute('substitution') !== 'yes' &&
    (element.attribute('alternate') === 'yes') === isAlternate
  );
}

/** The words of a direction that holds nothing but words, else nothing. */
export function onlyWords(direction: XmlElement): readonly XmlElement[] {
  return onlyIn(direction, 'words');
}

/** What a direction has of a kind, if it has nothing else. */
export function onlyIn(direction: XmlElement, kind: 'words' | 'dashes'): readonly XmlElement[] {
  if (direction.name !== 'direction') return [];
  if (!direction.children.every(({ name }) => BESIDE_DIRECTION_TYPE.has(name))) return [];
  const content = direction.all('direction-type').flatMap(({ children }) => children);
  return content.every(({ name }) => name === kind) ? content : [];
}

/** Text with the line ends that a parser hands on. */
export function parsedText(element: XmlElement): string {
  return element.text.replaceAll(/\r\n?/g, '\n');
}

/** The elements that print text in what may be a mark of ours. */
export function wordsIn(element: XmlElement): readonly XmlElement[] {
  if (element.name === 'words') return [element];
  if (element.name !== 'direction' && element.name !== 'direction-type') return [];
  return element.children.flatMap(wordsIn);
}

/** The note in which an element stands. */
export function noteAround(element: XmlElement): XmlElement | undefined {
  let around: XmlElement | undefined = element;
  while (around !== undefined && around.name !== 'note') around = around.parent;
  return around;
}

/** The `<fingering>` elements of a note. */
export function digitsOf(note: XmlElement): readonly XmlElement[] {
  return note.children.flatMap((child) => (child.name === 'notations' ? fingeringsIn(child) : []));
}

/** False for what would make a score of ours ill-formed: somebody has changed what an instruction keeps. */
export function isElement(text: string): boolean {
  if (!/^<[^!?]/.test(text)) return false;
  try {
    new WellFormedness(text, DEFAULT_LIMITS).check();
    return true;
  } catch (error) {
    if (error instanceof HandlineError) return false;
    throw error;
  }
}
