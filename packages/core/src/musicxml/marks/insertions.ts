import { create } from '#xmlbuilder2';
import { literal } from '../xml/references.js';
import type { Layout } from './layout.js';

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

function append(parent: Tree, element: NewElement, prefix: string): Tree {
  const node = parent.ele(`${prefix}${element.name}`);
  for (const [name, value] of Object.entries(element.attributes ?? {})) node.att(name, literal(value));
  if (element.text !== undefined) node.txt(literal(element.text));
  for (const child of element.children ?? []) append(node, child, prefix);
  return node;
}

/** @param document an empty one, and empty again behind this: to create one costs more than an element */
function buildXml(document: Tree, element: NewElement, prefix: string, pretty: boolean): string {
  const node = append(document, element, prefix);
  const xml = node.toString({ headless: true, prettyPrint: pretty, indent: INDENT, newline: BREAK });
  node.remove();
  return xml.replaceAll('\n', '&#10;');
}

/** What goes in at one place: an instruction, and the elements that it speaks of. */
export interface Insertion {
  readonly instruction: string;
  readonly elements: readonly NewElement[];
}

interface Built {
  readonly instruction: string;
  readonly elements: readonly string[];
}

type Key = string | number;

/**
 * Builds insertions with xmlbuilder2 and lays them out. A score repeats few distinct ones many times, so each is built
 * and laid out once: `key` must tell apart all that a caller builds.
 */
export class InsertionBuilder {
  readonly #built = new Map<Key, Built>();
  readonly #laidOut = new Map<string, Map<Key, string>>();
  readonly #document = create();
  #layout: Layout | undefined;
  #texts = new Map<Key, string>();
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

  /** The text to insert, from the line break before it on. */
  build(key: Key, layout: Layout, make: () => Insertion): string {
    const known = this.#textsOf(layout);
    let text = known.get(key);
    if (text === undefined) {
      text = this.#layOut(key, layout, make);
      known.set(key, text);
    }
    return text;
  }

  /** What is laid out alike, by key; most insertions are laid out as the one before. */
  #textsOf(layout: Layout): Map<Key, string> {
    const { newline, indent, unit } = layout;
    const last = this.#layout;
    if (last?.indent === indent && last.unit === unit && last.newline === newline) return this.#texts;
    const key = `${newline}${indent}|${unit}`;
    this.#layout = layout;
    this.#texts = this.#laidOut.get(key) ?? new Map();
    this.#laidOut.set(key, this.#texts);
    return this.#texts;
  }

  #layOut(key: Key, { newline, indent, unit }: Layout, make: () => Insertion): string {
    const pretty = newline !== '' && unit !== '';
    const lead = newline + indent;
    const { instruction, elements } = this.#elements(key, pretty, make);
    const lines = pretty
      ? elements.map((xml) => xml.replaceAll(BREAK, lead).replaceAll(INDENT, unit))
      : elements;
    return `${lead}${instruction}${lines.join(lead)}`;
  }

  #elements(key: Key, pretty: boolean, make: () => Insertion): Built {
    const fullKey = pretty ? `pretty ${key}` : key;
    const known = this.#built.get(fullKey);
    if (known !== undefined) return known;
    const { instruction, elements } = make();
    const built = { instruction, elements: elements.map((element) => this.#xml(element, pretty)) };
    this.#built.set(fullKey, built);
    return built;
  }

  #xml(element: NewElement, pretty: boolean): string {
    const xml = buildXml(this.#document, element, this.#prefix, pretty);
    if (!this.#asciiOnly) return xml;
    return xml.replaceAll(/[\u0080-\ud7ff\ue002-\u{10ffff}]/gu, (char) => `&#${char.codePointAt(0)};`);
  }
}
