import type { Place } from '../../../score/errors.js';
import type { Span } from '../../../score/model.js';
import { LineIndex } from '../../xml/position.js';
import { skipSpace } from '../../xml/space.js';
import type { XmlElement } from '../../xml/tree.js';
import { type Instruction, readInstruction } from '../format.js';
import { indexAt } from '../layout.js';
import { readToken, type Token } from '../record/token.js';

/** One instruction of ours as it stands in a text. */
export interface FoundInstruction extends Span {
  /** Undefined where it is unknown: by a later version of ours, or by another program. */
  readonly instruction: Instruction | undefined;
  /** The element that begins right behind it, if any. */
  readonly element: XmlElement | undefined;
}

/** Words that carry a token of ours. */
export interface FoundToken {
  readonly words: XmlElement;
  readonly token: Token;
}

/** What `clearMarks` works on. */
export interface Scan {
  /** To be gone through once: they are many. */
  readonly instructions: Iterable<FoundInstruction>;
  /** In document order. */
  readonly tokens: readonly FoundToken[];
  enclosing(at: number): XmlElement;
  place(at: number): Place;
}

/** Elements before which an instruction of ours stands. */
const MARKED = new Set(['notations', 'technical', 'fingering', 'direction']);
// Comments, CDATA sections and instructions of others count too: what one of them quotes is none of ours and opens none.
const TOKEN = /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>/g;
const OURS = /^<\?handline\s/;

function innermost(root: XmlElement, at: number): XmlElement {
  let element = root;
  for (;;) {
    const { children } = element;
    const inner = children[indexAt(children, at)];
    if (inner === undefined || at >= inner.end) return element;
    element = inner;
  }
}

/** The instructions of ours in a text, one after the other. */
function* instructionsIn(text: string, root: XmlElement): Generator<FoundInstruction> {
  // The DOCTYPE, which stands before the root, may quote anything in its declarations.
  const { start: from, end: to } = root.span;
  for (const { 0: source, index } of text.slice(from, to).matchAll(TOKEN)) {
    if (!OURS.test(source)) continue;
    const start = from + index;
    const end = start + source.length;
    const next = skipSpace(text, end);
    const behind = innermost(root, next);
    const element = behind.start === next && MARKED.has(behind.name) ? behind : undefined;
    yield { start, end, instruction: readInstruction(source), element };
  }
}

export function scanMarks(text: string, root: XmlElement, file: string | undefined): Scan {
  const tokens: FoundToken[] = [];
  for (const words of root.within('words')) {
    const token = readToken(words.attribute('font-family'));
    if (token !== undefined) tokens.push({ words, token });
  }

  let lines: LineIndex | undefined;
  const place = (at: number): Place => {
    lines ??= new LineIndex(text);
    const names: { part?: string; measure?: string } = {};
    let element: XmlElement | undefined = innermost(root, at);
    for (; element !== undefined; element = element.parent) {
      const part = element.name === 'part' ? element.attribute('id') : undefined;
      const measure = element.name === 'measure' ? element.attribute('number') : undefined;
      if (part !== undefined) names.part = part;
      if (measure !== undefined) names.measure = measure;
    }
    return { ...(file === undefined ? {} : { file }), ...names, ...lines.positionAt(at) };
  };
  return { instructions: instructionsIn(text, root), tokens, enclosing: (at) => innermost(root, at), place };
}
