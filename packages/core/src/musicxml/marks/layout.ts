import { firstNotBefore } from '../../numeric/binary-search.js';
import { isBlank, isLineEnd } from '../xml/space.js';
import type { XmlElement } from '../xml/tree.js';

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
  return firstNotBefore(siblings, at, beginsBy) - 1;
}

function beginsBy({ start }: XmlElement, at: number): boolean {
  return start <= at;
}

const RETURN = 13;

// No program indents deeper; without a bound, a file of odd white space would grow many times over.
const MAX_INDENT = 128;

/** Indentation before `at`, or undefined where something else stands before it on its line. */
function indentBefore(text: string, at: number): string | undefined {
  let start = at;
  while (isBlank(text.charCodeAt(start - 1))) start--;
  return at - start <= MAX_INDENT && isLineEnd(text.charCodeAt(start - 1))
    ? text.slice(start, at)
    : undefined;
}

/** The line end that stands before `at`. */
function newlineBefore(text: string, at: number): string {
  if (text.charCodeAt(at - 1) === RETURN) return '\r';
  return text.charCodeAt(at - 2) === RETURN ? '\r\n' : '\n';
}

function unitBetween(outer: string | undefined, inner: string): string {
  if (outer !== undefined && inner.length > outer.length && inner.startsWith(outer)) {
    return inner.slice(outer.length);
  }
  return inner.includes('\t') ? '\t' : '  ';
}

/** Layout of something new beside `sibling`, a child of `parent`. */
export function layoutBeside(text: string, parent: XmlElement, sibling: XmlElement): Layout {
  return layoutAt(text, parent.span.start, sibling.span.start);
}

/** Layout of something new beside a child that begins at `start`, of an element that begins at `parentStart`. */
export function layoutAt(text: string, parentStart: number, start: number): Layout {
  const indent = indentBefore(text, start);
  if (indent === undefined) return INLINE;
  const unit = unitBetween(indentBefore(text, parentStart), indent);
  return { newline: newlineBefore(text, start - indent.length), indent, unit };
}

/** Layout of an element beside `element`, which begins at `start`, that has the inner style of `element` itself. */
export function layoutLike(text: string, element: XmlElement, start: number): Layout {
  const indent = indentBefore(text, start);
  if (indent === undefined) return INLINE;
  const first = element.children[0];
  const inner = first === undefined ? undefined : indentBefore(text, first.span.start);
  const unit = inner === undefined ? '' : unitBetween(indent, inner);
  return { newline: newlineBefore(text, start - indent.length), indent, unit };
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
  const { start, end } = parent.span;
  const indent = indentBefore(text, start);
  const opensLine = /^[ \t]*[\r\n]/.test(text.slice(at, end));
  if (indent === undefined || !opensLine) return { at, layout: INLINE };
  const newline = newlineBefore(text, start - indent.length);
  return { at, layout: { newline, indent: indent + unit, unit } };
}
