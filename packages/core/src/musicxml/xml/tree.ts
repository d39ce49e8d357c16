import type { Limits } from '../../options/options.js';
import { HandlineError } from '../../score/errors.js';
import type { Span } from '../../score/model.js';
import { WellFormedness } from './check/well-formedness.js';
import type { NodeTable } from './node-table.js';
import { parseElements } from './parse.js';
import { resolve } from './references.js';

const WEB_PAGE = /^\ufeff?\s*(?:<!--[^>]*-->\s*)?<(?:!doctype\s+html|html)\b/i;
const NO_CHILDREN: readonly XmlElement[] = [];

/** What all elements of a text share. */
class Nodes {
  /** Names without the root's prefix, by number; a stranger's begin with a colon. */
  readonly #names: string[] = [];

  /**
   * @param prefix the root's namespace prefix with its colon, or empty. MusicXML has no namespace of its own, but a
   * score may stand in one: then all its elements have the prefix, and a name without it is a stranger's
   */
  constructor(
    readonly table: NodeTable,
    readonly prefix: string,
  ) {}

  name(node: number): string {
    const number = this.table.names[node] as number;
    let name = this.#names[number];
    if (name === undefined) {
      const written = this.table.written(number);
      name = written.startsWith(this.prefix) ? written.slice(this.prefix.length) : `:${written}`;
      this.#names[number] = name;
    }
    return name;
  }
}

/**
 * An element of the score with its place in the text; a view that is made when asked for. Two views may show one
 * element: `id` tells.
 */
export class XmlElement {
  private list: readonly XmlElement[] | undefined;

  /** @param id number of the element in document order, from 0 */
  constructor(
    private readonly nodes: Nodes,
    readonly id: number,
    readonly parent: XmlElement | undefined,
  ) {}

  /** The name without the root's prefix. */
  get name(): string {
    return this.nodes.name(this.id);
  }

  /** The root's namespace prefix with its colon, or empty. */
  get prefix(): string {
    return this.nodes.prefix;
  }

  /** The whole element, from its `<` to behind its last `>`, in UTF-16 code units of the original text. */
  get span(): Span {
    return { start: this.start, end: this.end };
  }

  /** Offset of its `<`. */
  get start(): number {
    return this.nodes.table.starts[this.id] as number;
  }

  /** Offset behind its last `>`. */
  get end(): number {
    return this.nodes.table.ends[this.id] as number;
  }

  /** Child elements in document order. */
  get children(): readonly XmlElement[] {
    if (this.list !== undefined) return this.list;
    const { nexts } = this.nodes.table;
    const behind = nexts[this.id] as number;
    if (this.id + 1 === behind) return NO_CHILDREN;
    const list: XmlElement[] = [];
    for (let node = this.id + 1; node < behind; node = nexts[node] as number)
      list.push(new XmlElement(this.nodes, node, this));
    // What lies deeper is made anew: kept, it would take more memory than all the rest.
    if (this.isOuter()) this.list = list;
    return list;
  }

  /** First child element of a name. */
  child(name: string): XmlElement | undefined {
    const node = this.nodeOf(name);
    return node === -1 ? undefined : new XmlElement(this.nodes, node, this);
  }

  /** All child elements of a name. */
  all(name: string): XmlElement[] {
    const { table } = this.nodes;
    const number = table.nameNumber(this.prefix + name);
    const found: XmlElement[] = [];
    if (number === -1) return found;
    // Where the children are kept they are the same views as before.
    if (this.isOuter()) {
      for (const child of this.children) if (table.names[child.id] === number) found.push(child);
      return found;
    }
    const behind = table.nexts[this.id] as number;
    for (let node = this.id + 1; node < behind; node = table.nexts[node] as number)
      if (table.names[node] === number) found.push(new XmlElement(this.nodes, node, this));
    return found;
  }

  /** Last child element whose name is not among some. */
  lastExcept(names: ReadonlySet<string>): XmlElement | undefined {
    const { nexts } = this.nodes.table;
    let last = -1;
    const behind = nexts[this.id] as number;
    for (let node = this.id + 1; node < behind; node = nexts[node] as number)
      if (!names.has(this.nodes.name(node))) last = node;
    return last === -1 ? undefined : new XmlElement(this.nodes, last, this);
  }

  /** True where there is a child element of a name. */
  has(name: string): boolean {
    return this.nodeOf(name) !== -1;
  }

  /** The element's own character data, white space kept; predefined and numeric references resolved, no others. */
  get text(): string {
    return this.nodes.table.text(this.id);
  }

  /** Trimmed text of the first child element of a name. */
  textOf(name: string): string | undefined {
    const node = this.nodeOf(name);
    return node === -1 ? undefined : this.nodes.table.text(node).trim();
  }

  /** Text of the last child element of a name. */
  lastTextOf(name: string): string | undefined {
    const { table } = this.nodes;
    const number = table.nameNumber(this.prefix + name);
    let last: number | undefined;
    const behind = table.nexts[this.id] as number;
    for (let node = this.id + 1; node < behind; node = table.nexts[node] as number)
      if (table.names[node] === number) last = node;
    return last === undefined ? undefined : table.text(last);
  }

  /** Value of an attribute, references resolved as in `text`. */
  attribute(name: string): string | undefined {
    const value = this.nodes.table.attributes(this.id)[name];
    if (typeof value !== 'string') return undefined;
    return value.includes('&') ? resolve(value) : value;
  }

  /** Names of the attributes in document order. */
  get attributeNames(): string[] {
    return Object.keys(this.nodes.table.attributes(this.id));
  }

  /** All elements of a name within this one, in document order. */
  within(name: string): XmlElement[] {
    const found: XmlElement[] = [];
    this.collect(this.nodes.table.nameNumber(this.prefix + name), found);
    return found;
  }

  private collect(number: number, found: XmlElement[]): void {
    const { names, nexts } = this.nodes.table;
    for (const child of this.children) {
      const behind = nexts[child.id] as number;
      if (names[child.id] === number) found.push(child);
      if (names.subarray(child.id + 1, behind).includes(number)) child.collect(number, found);
    }
  }

  /** Number of the first child of a name, or -1. */
  private nodeOf(name: string): number {
    const { table } = this.nodes;
    const number = table.nameNumber(this.prefix + name);
    const behind = table.nexts[this.id] as number;
    for (let node = this.id + 1; node < behind; node = table.nexts[node] as number)
      if (table.names[node] === number) return node;
    return -1;
  }

  /** True for the score, its parts and their measures. */
  private isOuter(): boolean {
    return this.parent?.parent?.parent === undefined;
  }
}

/**
 * @param text XML text; a byte-order mark at its start is allowed
 * @param file name for messages
 * @returns the root element
 * @throws HandlineError EMPTY, NOT_XML, LIMIT, UNSAFE
 */
export function parseTree(text: string, limits: Limits, file?: string): XmlElement {
  const place = file === undefined ? {} : { file };
  if (text.trim() === '') throw new HandlineError('EMPTY', 'is empty; give a MusicXML file', place);
  if (WEB_PAGE.test(text)) {
    throw new HandlineError(
      'NOT_MUSICXML',
      'is a web page, not a score; export the score as MusicXML',
      place,
    );
  }
  const checked = new WellFormedness(text, limits, file).check();
  let table: NodeTable;
  try {
    table = parseElements(checked, limits);
  } catch (cause) {
    const message =
      cause instanceof Error ? cause.message.replace(/\s+/g, ' ').slice(0, 120) : 'cannot be parsed';
    throw new HandlineError('NOT_XML', `is not well-formed XML: ${message}`, place, { cause });
  }
  const written = table.written(table.names[0] as number);
  return new XmlElement(new Nodes(table, written.slice(0, written.indexOf(':') + 1)), 0, undefined);
}
