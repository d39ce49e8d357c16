import { behindContent } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';
import type { WrittenFinger } from './format.js';
import { isSignature } from './format.js';
import { isSelfClosed, startTagEnd } from './layout.js';

const BESIDE_DIRECTION_TYPE = new Set(['direction-type', 'offset', 'voice', 'staff']);
const BESIDE_CREDIT_WORDS = new Set(['credit-words', 'credit-type']);

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

/** True where a `<fingering>` still says what we wrote. */
export function saysFinger(element: XmlElement, { finger, role }: WrittenFinger): boolean {
  return (
    element.text.trim() === String(finger) &&
    (element.attribute('substitution') === 'yes') === (role === 'substitution') &&
    (element.attribute('alternate') === 'yes') === (role === 'alternate')
  );
}

/** The one `<words>` or `<credit-words>` of a direction or credit that holds nothing else; else undefined. */
export function onlyWords(element: XmlElement): XmlElement | undefined {
  const beside = element.name === 'direction' ? BESIDE_DIRECTION_TYPE : BESIDE_CREDIT_WORDS;
  // More children than kinds of them cannot be ours, however many a hostile file has.
  if (element.children.length > beside.size || !element.children.every(({ name }) => beside.has(name))) {
    return undefined;
  }
  if (element.name === 'credit') return single(element.all('credit-words'));
  const type = element.name === 'direction' ? single(element.all('direction-type')) : undefined;
  const words = type === undefined ? undefined : single(type.children);
  return words?.name === 'words' ? words : undefined;
}

function single(elements: readonly XmlElement[]): XmlElement | undefined {
  return elements.length === 1 ? elements[0] : undefined;
}

/** Text with the line ends that a parser hands on. */
export function parsedText(element: XmlElement): string {
  return element.text.replaceAll(/\r\n?/g, '\n');
}

/** An element that prints a mark and carries our colour. */
export function isSigned(element: XmlElement): boolean {
  return isSignature(element.attribute('color'));
}

/** The elements that print text in what may be a cue or legend of ours. */
export function wordsIn(element: XmlElement): readonly XmlElement[] {
  if (/^(?:credit-)?words$/.test(element.name)) return [element];
  if (!/^(?:direction|direction-type|credit)$/.test(element.name)) return [];
  return element.children.flatMap(wordsIn);
}
