import type { Limits } from '../../../options/options.js';
import { HandlineError } from '../../../score/errors.js';
import type { Checked } from '../checked.js';
import { forbiddenAt } from '../forbidden.js';
import { Masks } from '../masks.js';
import { Pieces } from '../pieces.js';
import { placeAt } from '../position.js';
import { isSpace, skipSpace } from '../space.js';
import { commentEnd } from './comment.js';
import { type Doctype, readDoctype } from './doctype.js';
import { holdsMarkup, isPredefined, isProse, namesCharacter } from './entities.js';
import { instructionEnd } from './instruction.js';
import { NAME_SOURCE } from './names.js';
import { Places } from './places.js';

// fast-xml-parser builds a tree from ill-formed text too (it never compares the names of start and end tags), its
// own validator costs three times this scan and misses truncation inside comments; hence this check before it.

const NAME = new RegExp(`^${NAME_SOURCE}$`, 'u');
const REFERENCE = new RegExp(`&(?:#0*(\\d{1,7})|#x0*([\\da-fA-F]{1,6})|(${NAME_SOURCE}));`, 'uy');
const POLLUTION = new Set(['__proto__', 'constructor', 'prototype']);
const PLAIN_NAME = `(?!${[...POLLUTION].join('|')})[A-Za-z_][\\w.-]*`;
/** An element with only text in it and at most one attribute, and the text after it: most of a score, and always well-formed. */
const LEAF = new RegExp(`<(${PLAIN_NAME})(?: ${PLAIN_NAME}="[^"<&]*")?>[^<&]*</\\1>[^<&]*`, 'y');

/** Checks that a text is well-formed XML within the limits. */
export class WellFormedness {
  private readonly stack: string[] = [];
  private readonly known = new Map<string, boolean>();
  private readonly masks = new Masks();
  private readonly pieces = new Pieces();
  private elements = 0;
  private doctype: Doctype | undefined;
  private roots = 0;
  private readonly references: Places;
  private readonly sectionEnds: Places;

  constructor(
    private readonly text: string,
    private readonly limits: Limits,
    private readonly file?: string,
  ) {
    this.references = new Places(text, '&');
    this.sectionEnds = new Places(text, ']]>');
  }

  /** @throws HandlineError NOT_XML, LIMIT or UNSAFE with line and column */
  check(): Checked {
    const { text } = this;
    const bad = forbiddenAt(text);
    if (bad !== -1)
      this.fail('NOT_XML', 'holds a character that XML does not allow; it is not MusicXML', bad);
    let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
    for (let open = text.indexOf('<', at); open !== -1; open = text.indexOf('<', at)) {
      this.checkText(at, open);
      at = this.leaf(open);
      if (at > open) continue;
      const code = text.charCodeAt(open + 1);
      if (code === 47) at = this.endTag(open);
      else if (code === 33) at = this.declaration(open);
      else if (code === 63) at = this.instruction(open);
      else at = this.startTag(open);
    }
    this.checkText(at, text.length);
    if (this.stack.length > 0) {
      const name = this.stack[this.stack.length - 1];
      this.fail('NOT_XML', `<${name}> is not closed; the file seems to be truncated`, text.length);
    }
    if (this.roots === 0) this.fail('NOT_XML', 'holds no XML element; give a MusicXML file', 0);
    const { elements, masks } = this;
    return { text, elements, masks, pieces: this.pieces.list };
  }

  /** Where a plain leaf and the text after it end; `open` where there is none. */
  private leaf(open: number): number {
    const depth = this.stack.length;
    if (depth === 0 || depth >= this.limits.maxDepth) return open;
    LEAF.lastIndex = open;
    if (!LEAF.test(this.text) || this.sectionEnds.next(open) < LEAF.lastIndex) return open;
    this.elements += 1;
    return LEAF.lastIndex;
  }

  private startTag(open: number): number {
    const { text, stack } = this;
    let at = this.nameEnd(open + 1);
    const name = text.slice(open + 1, at);
    if (at === text.length) this.fail('NOT_XML', `<${name} has no end; the file seems to be truncated`, open);
    this.checkName(name, open);
    if (stack.length === 0 && this.roots++ > 0)
      this.fail('NOT_XML', `<${name}> follows the root element`, open);
    this.elements += 1;
    this.pieces.begin(name, stack.length, open);
    let names: Set<string> | undefined;
    for (;;) {
      const space = at;
      at = skipSpace(this.text, at);
      const code = text.charCodeAt(at);
      if (code === 62) {
        stack.push(name);
        if (stack.length > this.limits.maxDepth) {
          this.fail(
            'LIMIT',
            `elements are nested deeper than ${this.limits.maxDepth} (limits.maxDepth)`,
            open,
          );
        }
        return at + 1;
      }
      if (code === 47 && text.charCodeAt(at + 1) === 62) return at + 2;
      if (at >= text.length)
        this.fail('NOT_XML', `<${name} has no end; the file seems to be truncated`, open);
      if (space === at) this.fail('NOT_XML', `<${name}> has no space before an attribute`, at);
      const end = this.nameEnd(at);
      const attribute = text.slice(at, end);
      this.checkName(attribute, at);
      names ??= new Set();
      if (names.has(attribute)) this.fail('NOT_XML', `<${name}> has the attribute ${attribute} twice`, at);
      names.add(attribute);
      at = this.attributeValue(name, end);
    }
  }

  private attributeValue(element: string, from: number): number {
    const { text } = this;
    let at = skipSpace(this.text, from);
    if (text.charCodeAt(at) !== 61) this.fail('NOT_XML', `an attribute of <${element}> has no value`, from);
    at = skipSpace(this.text, at + 1);
    const quote = text[at];
    if (quote !== '"' && quote !== "'")
      this.fail('NOT_XML', `an attribute of <${element}> has no quotes`, at);
    const end = text.indexOf(quote as string, at + 1);
    if (end === -1) this.fail('NOT_XML', `an attribute of <${element}> has no closing quote`, at);
    for (let i = at + 1; i < end; i++) {
      const code = text.charCodeAt(i);
      if (code === 60) this.fail('NOT_XML', `an attribute of <${element}> holds "<"`, i);
      if (code === 38) this.checkReference(i, true);
    }
    return end + 1;
  }

  private endTag(open: number): number {
    const { text } = this;
    const name = this.stack.pop();
    if (name !== undefined && text.startsWith(name, open + 2)) {
      const at = skipSpace(this.text, open + 2 + name.length);
      if (text.charCodeAt(at) === 62) {
        this.pieces.end(this.stack.length, open);
        return at + 1;
      }
    }
    const end = this.nameEnd(open + 2);
    const found = text.slice(open, end);
    if (skipSpace(text, end) === text.length)
      this.fail('NOT_XML', `${found} has no end; the file seems to be truncated`, open);
    const wanted = name === undefined ? 'nothing is open' : `<${name}> is open`;
    return this.fail('NOT_XML', `${found}> does not match: ${wanted}`, open);
  }

  private declaration(open: number): number {
    const { text } = this;
    if (text.startsWith('<!--', open))
      return commentEnd(text, open, (code, message, at) => this.fail(code, message, at));
    if (text.startsWith('<![CDATA[', open) && this.stack.length > 0) {
      return this.after(']]>', open + 9, 'a CDATA section', open);
    }
    if (text.startsWith('<!DOCTYPE', open) && this.roots === 0 && this.doctype === undefined) {
      this.doctype = readDoctype(text, open, (code, message, at) => this.fail(code, message, at));
      this.masks.add(open, this.doctype.end);
      return this.doctype.end;
    }
    return this.fail('NOT_XML', 'a declaration is not allowed here', open);
  }

  private instruction(open: number): number {
    const end = instructionEnd(this.text, open, (code, message, at) => this.fail(code, message, at));
    this.masks.add(open, end);
    return end;
  }

  private checkText(from: number, to: number): void {
    if (this.stack.length === 0) this.checkOutside(from, to);
    const section = this.sectionEnds.next(from);
    if (section < to) this.fail('NOT_XML', '"]]>" in a text must be written as "]]&gt;"', section);
    for (let at = this.references.next(from); at < to; at = this.references.next(at + 1)) {
      this.checkReference(at, false);
    }
  }

  private checkOutside(from: number, to: number): void {
    const at = skipSpace(this.text, from);
    if (at >= to) return;
    if (this.text.charCodeAt(at) === 38) this.checkReference(at, false);
    const what =
      this.roots === 0 ? 'there is text before the first element' : 'there is text after the root element';
    this.fail('NOT_XML', `${what}; this is not MusicXML`, at);
  }

  private checkReference(at: number, attribute: boolean): void {
    REFERENCE.lastIndex = at;
    const match = REFERENCE.exec(this.text);
    if (match === null) this.fail('NOT_XML', 'a bare "&" must be written as "&amp;"', at);
    const [, decimal, hex, name] = match as RegExpExecArray;
    if (name === undefined) {
      if (!namesCharacter(decimal, hex))
        this.fail('NOT_XML', 'a reference names a character that XML does not allow', at);
      return;
    }
    if (isPredefined(name)) return;
    // An external DTD, which is not read, may declare any.
    if (!this.doctype?.isExternal && !this.doctype?.entities.has(name))
      this.fail('NOT_XML', `the entity &${name}; is not declared`, at);
    const parent = this.stack[this.stack.length - 1] ?? '';
    if ((!attribute && !isProse(parent)) || holdsMarkup(this.doctype?.entities.get(name) ?? '')) {
      this.fail('UNSAFE', `&${name}; in <${parent}> is not expanded; write its content into the file`, at);
    }
  }

  private checkName(name: string, at: number): void {
    let good = this.known.get(name);
    if (good === undefined) {
      if (POLLUTION.has(name)) this.fail('UNSAFE', `the name "${name}" is refused`, at);
      good = NAME.test(name);
      if (this.known.size < 10_000) this.known.set(name, good);
    }
    if (!good) this.fail('NOT_XML', `"<${name.slice(0, 20)}" is not an XML name`, at);
  }

  private nameEnd(from: number): number {
    const { text } = this;
    let at = from;
    for (; at < text.length; at++) {
      const code = text.charCodeAt(at);
      if (isSpace(code) || code === 62 || code === 47 || code === 61 || code === 60) break;
    }
    return at;
  }

  private after(what: string, from: number, name: string, open: number): number {
    const found = this.text.indexOf(what, from);
    if (found === -1) this.fail('NOT_XML', `${name} has no end; the file seems to be truncated`, open);
    return found + what.length;
  }

  private fail(code: 'NOT_XML' | 'UNSAFE' | 'LIMIT', message: string, at: number): never {
    throw new HandlineError(code, message, placeAt(this.text, at, this.file));
  }
}
