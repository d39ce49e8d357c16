/** What a document type declaration declares; nothing in it is ever fetched or expanded. */
export interface Doctype {
  /** Offset after its closing `>`. */
  readonly end: number;
  readonly entities: ReadonlySet<string>;
}

/** Tells where and why a declaration is refused. */
export type DoctypeFailure = (code: 'NOT_XML' | 'UNSAFE', message: string, at: number) => never;

const ENTITY = /<!ENTITY\s+(%\s+)?([^\s%"']+)\s+(?:(SYSTEM|PUBLIC)\s|"([^"]*)"|'([^']*)')/y;
const CUSTOM_REFERENCE = /&(?!#|(?:amp|lt|gt|quot|apos);)[^;\s]+;|%[^;\s]+;/;

/**
 * Finds the end of `<!DOCTYPE ...>` at `start` and the entities of its internal subset.
 * External and parameter entities and entities built from other entities are refused: expanding them reads other
 * files or grows without bound. The external identifier of the DTD itself is allowed and never followed.
 */
export function readDoctype(text: string, start: number, fail: DoctypeFailure): Doctype {
  const entities = new Set<string>();
  let inSubset = false;
  let i = start + '<!DOCTYPE'.length;
  while (i < text.length) {
    const char = text[i];
    if (char === '"' || char === "'") {
      i = after(text, char, i + 1, start, fail);
    } else if (char === '[') {
      inSubset = true;
      i += 1;
    } else if (char === ']') {
      inSubset = false;
      i += 1;
    } else if (char === '>') {
      if (!inSubset) return { end: i + 1, entities };
      i += 1;
    } else if (text.startsWith('<!--', i)) {
      i = after(text, '-->', i + 4, start, fail);
    } else if (text.startsWith('<?', i)) {
      i = after(text, '?>', i + 2, start, fail);
    } else if (text.startsWith('<!ENTITY', i) && inSubset) {
      entities.add(readEntity(text, i, fail));
      i += '<!ENTITY'.length;
    } else if (char === '%' && inSubset && /\S/.test(text[i + 1] ?? ' ')) {
      return fail('UNSAFE', 'parameter entities are not expanded; write their content into the file', i);
    } else {
      i += 1;
    }
  }
  return fail('NOT_XML', 'the DOCTYPE has no end; the file seems to be truncated', start);
}

function readEntity(text: string, at: number, fail: DoctypeFailure): string {
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
  if (CUSTOM_REFERENCE.test(double ?? single ?? '')) {
    return fail('UNSAFE', `entity "${name}" is built from other entities; remove it from the DOCTYPE`, at);
  }
  return name;
}

function after(text: string, what: string, from: number, start: number, fail: DoctypeFailure): number {
  const found = text.indexOf(what, from);
  if (found === -1) return fail('NOT_XML', 'the DOCTYPE has no end; the file seems to be truncated', start);
  return found + what.length;
}
