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

/** Stands for a line break of the layout while building; a line break of a text is a character reference. */
const BREAK = '\ue000';
// XML 1.0 has no way to write these, and the private break must not come from a text.
const FORBIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: exactly the characters that XML forbids
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ue000\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** The text as an XML file can hold it. */
export function xmlText(text: string): string {
  return text.replaceAll(FORBIDDEN, '\ufffd').replaceAll(/\r\n?/g, '\n');
}

function append(parent: Tree, element: NewElement): void {
  const node = parent.ele(element.name, { ...element.attributes });
  if (element.text !== undefined) node.txt(element.text);
  for (const child of element.children ?? []) append(node, child);
}

/**
 * Builds elements with xmlbuilder2 and lays them out. A score repeats few distinct elements many times, so
 * each is built once: `key` must tell apart all that a caller builds.
 */
export class ElementBuilder {
  readonly #built = new Map<string, string>();
  readonly #asciiOnly: boolean;

  /** @param asciiOnly write other characters as references, for encodings that may lack them */
  constructor(asciiOnly: boolean) {
    this.#asciiOnly = asciiOnly;
  }

  /** The element on lines after `layout.newline` and `layout.indent`, which are not part of the result. */
  build(key: string, layout: Layout, make: () => NewElement): string {
    const fullKey = `${key}\u0000${layout.newline}\u0000${layout.indent}\u0000${layout.unit}`;
    const known = this.#built.get(fullKey);
    if (known !== undefined) return known;
    const text = this.#make(make(), layout);
    this.#built.set(fullKey, text);
    return text;
  }

  #make(element: NewElement, layout: Layout): string {
    const document = create();
    append(document, element);
    const pretty = layout.newline !== '' && layout.unit !== '';
    const xml = document.end({ headless: true, prettyPrint: pretty, indent: layout.unit, newline: BREAK });
    const laidOut = xml.replaceAll('\n', '&#10;').replaceAll(BREAK, `${layout.newline}${layout.indent}`);
    if (!this.#asciiOnly) return laidOut;
    return laidOut.replaceAll(/[\u0080-\u{10ffff}]/gu, (char) => `&#${char.codePointAt(0)};`);
  }
}
