import { forbiddenAt } from '../forbidden.js';

const PREDEFINED = new Set(['amp', 'lt', 'gt', 'quot', 'apos']);
/** Prose: a custom entity may stand here, because the reading of the notes does not depend on it. */
const PROSE =
  /^(?:.*-?(?:words|text|title|name|abbreviation|number|description|field)|(?:.*:)?(?:rehearsal|creator|rights|software|encoder|source|relation|footnote|elision|symbol))$/;

export function isPredefined(entity: string): boolean {
  return PREDEFINED.has(entity);
}

/** True for an element whose text may hold a custom entity. */
export function isProse(element: string): boolean {
  return PROSE.test(element);
}

const MARKUP = /<|&#0*60;|&#x0*3c;/i;

/** True where what an entity stands for is more than text. */
export function holdsMarkup(value: string): boolean {
  return MARKUP.test(value);
}

/** True where a numeric reference, `&#DECIMAL;` or `&#xHEX;`, names a character that XML allows. */
export function namesCharacter(decimal: string | undefined, hex: string | undefined): boolean {
  const code = decimal === undefined ? Number.parseInt(hex as string, 16) : Number(decimal);
  return code <= 0x10ffff && forbiddenAt(String.fromCodePoint(code)) === -1;
}
