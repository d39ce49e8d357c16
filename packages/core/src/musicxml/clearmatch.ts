import type { WrittenFinger } from './marks.js';
import { isSignature } from './marks.js';
import type { XmlElement } from './tree.js';

const BESIDE_DIRECTION_TYPE = new Set(['direction-type', 'offset', 'voice', 'staff']);
const BESIDE_CREDIT_WORDS = new Set(['credit-words', 'credit-type']);

/** The fingerings that stand directly in an element that we may have written. */
export function fingeringsIn(element: XmlElement): readonly XmlElement[] {
  const name = element.name;
  if (name === 'fingering') return [element];
  if (name !== 'technical' && name !== 'notations') return [];
  return element.children.flatMap(fingeringsIn);
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
  const name = element.name;
  if (name === 'credit') {
    const words = element.children.filter((child) => child.name === 'credit-words');
    const plain = element.children.every((child) => BESIDE_CREDIT_WORDS.has(child.name));
    return plain && words.length === 1 ? words[0] : undefined;
  }
  if (name !== 'direction') return undefined;
  if (!element.children.every((child) => BESIDE_DIRECTION_TYPE.has(child.name))) return undefined;
  const types = element.children.filter((child) => child.name === 'direction-type');
  const [words, ...others] = types.flatMap((type) => type.children);
  if (words === undefined || others.length > 0 || words.name !== 'words') return undefined;
  return words;
}

/** Text with the line ends that a parser hands on. */
export function parsedText(element: XmlElement): string {
  return element.text.replaceAll(/\r\n?/g, '\n');
}

/** An element that prints a mark and carries our colour. */
export function isSigned(element: XmlElement): boolean {
  return isSignature(element.attribute('color'));
}
