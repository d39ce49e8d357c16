import type { XmlElement } from './tree.js';

/** How an insertion is laid out: on lines of its own, or inline where `newline` is empty. */
export interface Layout {
  readonly newline: string;
  readonly indent: string;
  /** One further level of indentation. */
  readonly unit: string;
}

const INLINE: Layout = { newline: '', indent: '', unit: '' };

export function isSelfClosed(text: string, element: XmlElement): boolean {
  return text.startsWith('/>', element.span.end - 2);
}

/** Offset behind the start tag; a `>` inside an attribute value does not end it. */
export function startTagEnd(text: string, element: XmlElement): number {
  let quote = '';
  for (let at = element.span.start; at < element.span.end; at++) {
    const char = text[at] as string;
    if (quote !== '') quote = char === quote ? '' : quote;
    else if (char === '"' || char === "'") quote = char;
    else if (char === '>') return at + 1;
  }
  return element.span.end;
}

/** Index of the last of some siblings that begins at `at` or before it; -1 where none does. */
export function indexAt(siblings: readonly XmlElement[], at: number): number {
  let [low, high] = [0, siblings.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((siblings[middle] as XmlElement).span.start <= at) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

const isSpace = (char: string | undefined) => char === ' ' || char === '\t' || char === '\n' || char === '\r';

/** Offset behind the last character before `at` that is no white space. */
export function behindContent(text: string, at: number): number {
  let end = at;
  while (end > 0 && isSpace(text[end - 1])) end--;
  return end;
}

/** Offset of the first character from `at` on that is no white space. */
export function skipSpace(text: string, at: number): number {
  let start = at;
  while (start < text.length && isSpace(text[start])) start++;
  return start;
}

// No program indents deeper; without a bound, a file of odd white space would grow many times over.
const MAX_INDENT = 128;

/** Line end and indentation before `at`, or undefined where something else stands before it on its line. */
function lineStart(text: string, at: number): { newline: string; indent: string } | undefined {
  let start = at;
  while (start > 0 && (text[start - 1] === ' ' || text[start - 1] === '\t')) start--;
  if (at - start > MAX_INDENT) return undefined;
  const indent = text.slice(start, at);
  if (text[start - 1] === '\n') return { newline: text[start - 2] === '\r' ? '\r\n' : '\n', indent };
  if (text[start - 1] === '\r') return { newline: '\r', indent };
  return undefined;
}

function unitBetween(outer: string | undefined, inner: string): string {
  if (outer !== undefined && inner.length > outer.length && inner.startsWith(outer)) {
    return inner.slice(outer.length);
  }
  return inner.includes('\t') ? '\t' : '  ';
}

/** Layout of something new beside `sibling`, a child of `parent`. */
export function layoutBeside(text: string, parent: XmlElement, sibling: XmlElement): Layout {
  return layoutAt(text, parent, sibling.span.start);
}

/** Layout of something new beside a child of `parent` that begins at `start`. */
export function layoutAt(text: string, parent: XmlElement, start: number): Layout {
  const own = lineStart(text, start);
  if (own === undefined) return INLINE;
  const { newline, indent } = own;
  return { newline, indent, unit: unitBetween(lineStart(text, parent.span.start)?.indent, indent) };
}

/** Layout of an element beside `element` that has the inner style of `element` itself. */
export function layoutLike(text: string, element: XmlElement): Layout {
  const own = lineStart(text, element.span.start);
  if (own === undefined) return INLINE;
  const first = element.children[0];
  const inner = first === undefined ? undefined : lineStart(text, first.span.start);
  return { ...own, unit: inner === undefined ? '' : unitBetween(own.indent, inner.indent) };
}

/** Where and how to insert a new last child of an element that is not self-closed. */
export function afterLastChild(
  text: string,
  parent: XmlElement,
  unit: string,
): { readonly at: number; readonly layout: Layout } {
  const last = parent.children.at(-1);
  if (last !== undefined) return { at: last.span.end, layout: layoutBeside(text, parent, last) };
  const at = startTagEnd(text, parent);
  const own = lineStart(text, parent.span.start);
  const opensLine = /^[ \t]*[\r\n]/.test(text.slice(at, parent.span.end));
  const layout = own !== undefined && opensLine ? { ...own, indent: own.indent + unit, unit } : INLINE;
  return { at, layout };
}
