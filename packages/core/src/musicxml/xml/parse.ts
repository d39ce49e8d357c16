import { XMLParser } from 'fast-xml-parser';
import type { Limits } from '../../options/options.js';
import type { Checked } from './checked.js';
import { NodeTable } from './node-table.js';
import { resolve } from './references.js';
import { skipSpace } from './space.js';

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

const META = XMLParser.getMetaDataSymbol() as unknown as string;
const TEXT = '#text';
const CDATA = PARSER_OPTIONS.cdataPropName;
/** Stands for a piece in the text around the pieces. */
const HOLE = '<_/>';

/**
 * The elements of a text, parsed piece by piece, so that the parser's nodes of one piece at a time are in memory.
 *
 * @throws whatever the parser throws
 */
export function parseElements(checked: Checked, limits: Limits): NodeTable {
  return new Filling(checked, limits).table;
}

class Filling {
  readonly table: NodeTable;
  readonly #parser: XMLParser;
  /** Added to an offset in what is parsed it is one in the whole text. */
  #shift = 0;
  #piece = 0;
  /** Where the hole of the next piece is in what is parsed. */
  #hole = Number.POSITIVE_INFINITY;

  constructor(
    private readonly checked: Checked,
    limits: Limits,
  ) {
    this.#parser = new XMLParser({
      ...PARSER_OPTIONS,
      // Without these two `annotate` takes 9 % longer for 5,000 notes and 20 % for 30,000 (measured).
      jPath: false,
      // White space between two sections is text.
      ...(checked.text.includes('<![CDATA[') ? {} : { tagValueProcessor: withoutGaps }),
      maxNestedTags: limits.maxDepth + 1,
    });
    this.table = new NodeTable(checked.elements);
    this.#fillAround();
  }

  #fillAround(): void {
    const { text, masks, pieces } = this.checked;
    const around: string[] = [];
    let at = 0;
    for (const { start, end } of pieces) {
      around.push(masks.slice(text, at, start), HOLE);
      at = end;
    }
    around.push(masks.slice(text, at, text.length));
    this.#hole = pieces[0]?.start ?? Number.POSITIVE_INFINITY;
    this.#fill(this.#parser.parse(around.join('')) as RawNode[]);
  }

  #fillPiece(): void {
    const { text, masks, pieces } = this.checked;
    const { start, end } = pieces[this.#piece++] as Checked['pieces'][number];
    const shift = this.#shift + (end - start) - HOLE.length;
    [this.#shift, this.#hole] = [start, Number.POSITIVE_INFINITY];
    this.#fill(this.#parser.parse(masks.slice(text, start, end)) as RawNode[]);
    this.#shift = shift;
    this.#hole = (pieces[this.#piece]?.start ?? Number.POSITIVE_INFINITY) - shift;
  }

  /** Returns the character data among the nodes. */
  #fill(nodes: readonly RawNode[]): string {
    const { table } = this;
    let text = '';
    for (const node of nodes) {
      const name = nameOf(node);
      if (name === TEXT) {
        const piece = node[TEXT] as string;
        text += piece.includes('&') ? resolve(piece) : piece;
      } else if (name === CDATA) {
        text += (node[CDATA] as RawNode[])[0]?.[TEXT] ?? '';
      } else {
        const meta = node[META] as { startIndex: number; endIndex: number };
        if (meta.startIndex === this.#hole) {
          this.#fillPiece();
          continue;
        }
        const own = table.begin(name, meta.startIndex + this.#shift, node[':@']);
        const content = this.#fill(node[name] as RawNode[]);
        table.end(own, meta.endIndex + this.#shift, content);
      }
    }
    return text;
  }
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

function nameOf(node: RawNode): string {
  for (const key in node) return key;
  return TEXT;
}
