const ATTRIBUTES = /(?:[^>"']|"[^"]*"|'[^']*')*/.source;

/** A tag of the text of a score. */
export interface Tag {
  readonly name: string;
  readonly kind: 'start' | 'end' | 'empty';
  /** Of the whole tag in the text. */
  readonly start: number;
  readonly end: number;
}

/**
 * The tags with some names in the text of a well-formed document, as they come; what looks like one in a comment, a CDATA
 * section or the document type is none.
 */
export function* tagsOf(text: string, names: readonly string[]): Generator<Tag> {
  const pattern = new RegExp(
    `<!--[\\s\\S]*?-->|<!\\[CDATA\\[[\\s\\S]*?\\]\\]>|<\\?[\\s\\S]*?\\?>|<(/?)(${names.join('|')})(?=[\\s/>])${ATTRIBUTES}>`,
    'g',
  );
  for (const { 0: whole, 1: slash, 2: name, index } of text.matchAll(pattern)) {
    if (name === undefined) continue;
    const kind = slash === '/' ? 'end' : whole.endsWith('/>') ? 'empty' : 'start';
    yield { name, kind, start: index, end: index + whole.length };
  }
}
