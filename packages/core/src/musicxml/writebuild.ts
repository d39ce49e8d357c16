import { create } from 'xmlbuilder2';
import type { Layout } from './writelayout.js';

/** An element to build: attributes in order, then text or child elements in order. */
export interface NewElement {
  readonly name: string;
  readonly attributes?: Readonly<Record<string, string>>;
  readonly text?: string;
  readonly children?: readonly NewElement[];
}

type Tree = ReturnType<typeof create>;

// Stand for a line break and for a level of indentation in what is built; a text cannot hold them.
const BREAK = '\ue000';
const INDENT = '\ue001';
// XML 1.0 has no way to write the others.
const FORBIDDEN = /(?![\t\n\r\u007f-\u009f])\p{Cc}|[\ue000\ue001\ufffe\uffff]|\p{Cs}/gu;

/** The text as an XML file can hold it. */
export function xmlText(text: string): string {
  return text.replaceAll(FORBIDDEN, '\ufffd').replaceAll(/\r\n?/g, '\n');
}

function append(parent: Tree, element: NewElement, prefix: string): void {
  const node = parent.ele(`${prefix}${element.name}`, { ...element.attributes });
  if (element.text !== undefined) node.txt(element.text);
  for (const child of element.children ?? []) append(node, child, prefix);
}

function buildXml(element: NewElement, prefix: string, pretty: boolean): string {
  const document = create();
  append(document, element, prefix);
  const options = { headless: true, prettyPrint: pretty, indent: INDENT, newline: BREAK };
  return document.end(options).replaceAll('\n', '&#10;');
}

/**
 * Builds elements with xmlbuilder2 and lays them out. A score repeats few distinct elements many times, so each is
 * built once: `key` must tell apart all that a caller builds.
 */
export class ElementBuilder {
  readonly #built = new Map<string, string>();
  readonly #asciiOnly: boolean;
  readonly #prefix: string;

  /**
   * @param asciiOnly write other characters as references, for encodings that may lack them
   * @param prefix of all names, with its colon; empty for none
   */
  constructor(asciiOnly: boolean, prefix: string) {
    this.#asciiOnly = asciiOnly;
    this.#prefix = prefix;
  }

  /** The element on lines after `layout.newline` and `layout.indent`, which are not part of the result. */
  build(key: string, { newline, indent, unit }: Layout, make: () => NewElement): string {
    const pretty = newline !== '' && unit !== '';
    const fullKey = pretty ? `pretty ${key}` : key;
    let xml = this.#built.get(fullKey);
    if (xml === undefined) {
      xml = buildXml(make(), this.#prefix, pretty);
      if (this.#asciiOnly) {
        xml = xml.replaceAll(/[\u0080-\ud7ff\ue002-\u{10ffff}]/gu, (char) => `&#${char.codePointAt(0)};`);
      }
      this.#built.set(fullKey, xml);
    }
    return pretty ? xml.replaceAll(BREAK, newline + indent).replaceAll(INDENT, unit) : xml;
  }
}
