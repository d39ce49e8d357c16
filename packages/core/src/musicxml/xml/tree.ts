import { XMLParser } from 'fast-xml-parser';
import type { Limits } from '../../options/options.js';
import { HandlineError } from '../../score/errors.js';
import type { Span } from '../../score/model.js';
import { skipSpace } from './space.js';
import { WellFormedness } from './well-formedness.js';

/** What fast-xml-parser builds for one element or piece of text: its name as the first key. */
type RawNode = Record<string, unknown> & { readonly ':@'?: Record<string, string> };

/** The parser's options; `maxNestedTags` follows from the limits. A benchmark of ours uses the same. */
export const PARSER_OPTIONS = {
  preserveOrder: true,
  captureMetaData: true,
  ignoreAttributes: false,
  attributeNamePrefix: '',
  trimValues: false,
  parseTagValue: false,
  parseAttributeValue: false,
  processEntities: false,
  ignorePiTags: true,
  cdataPropName: '#cdata',
} as const;

const META = XMLParser.getMetaDataSymbol();
const TEXT = '#text';
const CDATA = PARSER_OPTIONS.cdataPropName;
const WEB_PAGE = /^\ufeff?\s*(?:<!--[^>]*-->\s*)?<(?:!doctype\s+html|html)\b/i;
const NO_CHILDREN: readonly XmlElement[] = [];

/** An element of the score with its place in the text; a thin view of the parser's own node, made when asked for. */
export class XmlElement {
  private list: readonly XmlElement[] | undefined;
  readonly name: string;

  /**
   * @param written the name as written in the text
   * @param prefix the root's namespace prefix with its colon, or empty; `name` lacks it. MusicXML has no namespace of
   * its own, but a score may stand in one: then all its elements have the prefix, and a name without it is a stranger's
   */
  constructor(
    private readonly written: string,
    private readonly node: RawNode,
    readonly parent: XmlElement | undefined,
    readonly prefix: string,
  ) {
    this.name = written.startsWith(prefix) ? written.slice(prefix.length) : `:${written}`;
  }

  /** The whole element, from its `<` to behind its last `>`, in UTF-16 code units of the original text. */
  get span(): Span {
    const meta = this.node[META as unknown as string] as { startIndex: number; endIndex: number };
    return { start: meta.startIndex, end: meta.endIndex };
  }

  /** Child elements in document order. */
  get children(): readonly XmlElement[] {
    this.list ??= this.wrap();
    return this.list;
  }

  /** First child element of a name. */
  child(name: string): XmlElement | undefined {
    for (const child of this.children) if (child.name === name) return child;
    return undefined;
  }

  /** All child elements of a name. */
  all(name: string): XmlElement[] {
    return this.children.filter((child) => child.name === name);
  }

  /** The element's own character data, white space kept; predefined and numeric references resolved, no others. */
  get text(): string {
    return textAmong(this.node[this.written] as RawNode[]);
  }

  /** Trimmed text of the first child element of a name. */
  textOf(name: string): string | undefined {
    return this.child(name)?.text.trim();
  }

  /** Text of the last child element of a name; makes no views of the children, which is quicker for many. */
  lastTextOf(name: string): string | undefined {
    const written = this.prefix + name;
    let last: RawNode[] | undefined;
    for (const child of this.node[this.written] as RawNode[]) {
      last = (child[written] as RawNode[] | undefined) ?? last;
    }
    return last && textAmong(last);
  }

  /** Value of an attribute, references resolved as in `text`. */
  attribute(name: string): string | undefined {
    const value = this.node[':@']?.[name];
    if (typeof value !== 'string') return undefined;
    return value.includes('&') ? resolve(value) : value;
  }

  /** Names of the attributes in document order. */
  get attributeNames(): string[] {
    return Object.keys(this.node[':@'] ?? {});
  }

  private wrap(): readonly XmlElement[] {
    const nodes = this.node[this.written] as RawNode[];
    let list: XmlElement[] | undefined;
    for (const node of nodes) {
      const name = nameOf(node);
      if (name === TEXT || name === CDATA) continue;
      list ??= [];
      list.push(new XmlElement(name, node, this, this.prefix));
    }
    return list ?? NO_CHILDREN;
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
  let nodes: RawNode[];
  try {
    nodes = new XMLParser({
      ...PARSER_OPTIONS,
      // Without these two `annotate` takes 9 % longer for 5,000 notes and 20 % for 30,000 (measured).
      jPath: false,
      tagValueProcessor: withoutGaps,
      maxNestedTags: limits.maxDepth + 1,
    }).parse(checked);
  } catch (cause) {
    const message =
      cause instanceof Error ? cause.message.replace(/\s+/g, ' ').slice(0, 120) : 'cannot be parsed';
    throw new HandlineError('NOT_XML', `is not well-formed XML: ${message}`, place, { cause });
  }
  for (const node of nodes) {
    const name = nameOf(node);
    if (name !== TEXT) return new XmlElement(name, node, undefined, name.slice(0, name.indexOf(':') + 1));
  }
  throw new HandlineError('NOT_XML', 'holds no XML element; give a MusicXML file', place);
}

/** No node for white space between elements; undefined leaves a text as it is. A leaf is what has no children yet. */
function withoutGaps(
  _name: string,
  text: string,
  _path: unknown,
  _attributes: boolean,
  isLeaf: boolean,
): string | undefined {
  return isLeaf || skipSpace(text, 0) < text.length ? undefined : '';
}

function textAmong(nodes: readonly RawNode[]): string {
  let text = '';
  for (const node of nodes) {
    const piece = node[TEXT];
    if (typeof piece === 'string') text += piece.includes('&') ? resolve(piece) : piece;
    else if (CDATA in node) text += (node[CDATA] as RawNode[])[0]?.[TEXT] ?? '';
  }
  return text;
}

function nameOf(node: RawNode): string {
  for (const key in node) return key;
  return TEXT;
}

const PREDEFINED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** A text with its predefined and numeric references resolved. */
export function resolve(text: string): string {
  return text.replace(/&(?:#(\d+)|#x([\da-fA-F]+)|(amp|lt|gt|quot|apos));/g, (all, decimal, hex, name) => {
    if (name !== undefined) return PREDEFINED[name] ?? all;
    const code = decimal === undefined ? Number.parseInt(hex, 16) : Number.parseInt(decimal, 10);
    return code <= 0x10ffff ? String.fromCodePoint(code) : all;
  });
}
