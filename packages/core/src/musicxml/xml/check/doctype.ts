import { skipSpace } from '../space.js';
import { commentEnd } from './comment.js';
import { namesCharacter } from './entities.js';
import { instructionEnd } from './instruction.js';
import { NAME_SOURCE } from './names.js';

/** What a document type declaration declares; nothing in it is ever fetched or expanded. */
export interface Doctype {
  /** Offset after its closing `>`. */
  readonly end: number;
  /** With the text that each stands for. */
  readonly entities: ReadonlyMap<string, string>;
  /** Whether it names a DTD outside the file, which may declare others. */
  readonly isExternal: boolean;
}

/** Tells where and why a declaration is refused. */
export type DoctypeFailure = (code: 'NOT_XML' | 'UNSAFE', message: string, at: number) => never;

/** Production 12, and 13 without the apostrophe. */
const PUBLIC_ID = `(?:"[ \\r\\na-zA-Z0-9\\-'()+,./:=?;!*#@$_%]*"|'[ \\r\\na-zA-Z0-9\\-()+,./:=?;!*#@$_%]*')`;
const QUOTED = `(?:"[^"]*"|'[^']*')`;
/** Up to its internal subset, or to its end (XML 1.0, productions 28 and 75). */
const HEAD = new RegExp(
  `<!DOCTYPE\\s+${NAME_SOURCE}(?:\\s+(SYSTEM\\s+${QUOTED}|PUBLIC\\s+${PUBLIC_ID}\\s+${QUOTED}))?\\s*[[>]`,
  'uy',
);
const END = /\]\s*>/y;
/** Declarations that have nothing to do with how a score is read. */
const OTHER = /<!(?:ELEMENT|ATTLIST|NOTATION)\s/y;
const DELIMITER = /[<>"']/g;
const ENTITY = new RegExp(
  `<!ENTITY\\s+(%\\s+)?(${NAME_SOURCE})\\s+(?:(SYSTEM|PUBLIC)\\s|"([^"]*)"\\s*>|'([^']*)'\\s*>)`,
  'uy',
);
const BARE = /&(?!(?:#\d+|#x[\da-fA-F]+|[a-z]+);)|%|\]\]>/;
const NUMERIC = /&#(?:(\d+)|x([\da-fA-F]+));/g;
const CUSTOM_REFERENCE = /&(?!#|(?:amp|lt|gt|quot|apos);)[^;\s]+;|%[^;\s]+;/;

/**
 * Finds the end of `<!DOCTYPE ...>` at `start` and the entities of its internal subset.
 * External and parameter entities and entities built from other entities are refused: expanding them reads other
 * files or grows without bound. The external identifier of the DTD itself is allowed and never followed.
 */
export function readDoctype(text: string, start: number, fail: DoctypeFailure): Doctype {
  HEAD.lastIndex = start;
  const head = HEAD.exec(text);
  if (head === null) {
    const message = text.includes('>', start)
      ? 'the DOCTYPE is not well-formed'
      : 'the DOCTYPE has no end; the file seems to be truncated';
    return fail('NOT_XML', message, start);
  }
  const isExternal = head[1] !== undefined;
  const entities = new Map<string, string>();
  let at = HEAD.lastIndex;
  if (text[at - 1] === '>') return { end: at, entities, isExternal };
  for (;;) {
    at = skipSpace(text, at);
    if (at === text.length)
      return fail('NOT_XML', 'the DOCTYPE has no end; the file seems to be truncated', start);
    const end = behind(END, text, at);
    if (end !== -1) return { end, entities, isExternal };
    if (text.startsWith('<!--', at)) at = commentEnd(text, at, fail);
    else if (text.startsWith('<?', at)) at = instructionEnd(text, at, fail);
    else if (text.startsWith('<!ENTITY', at)) {
      const [name, value] = readEntity(text, at, fail);
      // Of several declarations the first holds.
      if (!entities.has(name)) entities.set(name, value);
      at = ENTITY.lastIndex;
    } else if (text[at] === '%')
      return fail('UNSAFE', 'parameter entities are not expanded; write their content into the file', at);
    else {
      const other = otherEnd(text, at);
      if (other === -1) return fail('NOT_XML', 'a declaration in the DOCTYPE cannot be read', at);
      at = other;
    }
  }
}

/** Offset behind what matches at a place; -1 where nothing does. */
function behind(what: RegExp, text: string, at: number): number {
  what.lastIndex = at;
  return what.test(text) ? what.lastIndex : -1;
}

/** Offset behind a declaration that is passed over; -1 where none ends. One expression for all of a long one overflows the stack. */
function otherEnd(text: string, from: number): number {
  let at = behind(OTHER, text, from);
  while (at !== -1) {
    DELIMITER.lastIndex = at;
    const found = DELIMITER.exec(text);
    const [sign] = found ?? ['<'];
    if (sign === '<') return -1;
    if (sign === '>') return DELIMITER.lastIndex;
    at = text.indexOf(sign, DELIMITER.lastIndex) + 1 || -1;
  }
  return -1;
}

function readEntity(text: string, at: number, fail: DoctypeFailure): [name: string, value: string] {
  ENTITY.lastIndex = at;
  const match = ENTITY.exec(text);
  if (match === null) return fail('NOT_XML', 'an entity declaration cannot be read', at);
  const [, parameter, name = '', external, double, single] = match;
  if (parameter !== undefined) {
    return fail('UNSAFE', `parameter entity "${name}" is not expanded; remove it from the DOCTYPE`, at);
  }
  if (external !== undefined) {
    return fail('UNSAFE', `external entity "${name}" is not read; remove it from the DOCTYPE`, at);
  }
  const value = double ?? single ?? '';
  if (CUSTOM_REFERENCE.test(value)) {
    return fail('UNSAFE', `entity "${name}" is built from other entities; remove it from the DOCTYPE`, at);
  }
  const isBad = [...value.matchAll(NUMERIC)].some(([, decimal, hex]) => !namesCharacter(decimal, hex));
  if (isBad || BARE.test(value))
    return fail('NOT_XML', `entity "${name}" is not well-formed: its value holds what no text may`, at);
  return [name, value];
}
