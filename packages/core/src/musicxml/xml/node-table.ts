/** Attributes by name, in document order. */
export type Attributes = Readonly<Record<string, string>>;

/** Longer texts and values are seldom alike; shorter ones V8 never keeps as a window onto the text they were cut from. */
const SHORT = 12;
/** What is longer is most of what it was cut from. */
const LONG = 4096;
const NO_ATTRIBUTES: Attributes = Object.freeze({});

/**
 * All elements of a text in document order, a number each, in arrays: the parser's own nodes take some ten times the
 * memory (measured), and can be given back as soon as a piece of the text is parsed.
 */
export class NodeTable {
  /** Where an element begins and ends, in UTF-16 code units of the text. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** The first element behind all that an element holds. */
  readonly nexts: Int32Array;
  /** Number of an element's name, for `written`. */
  readonly names: Int32Array;
  readonly #texts: Int32Array;
  #count = 0;
  readonly #written: string[] = [];
  readonly #numbers = new Map<string, number>();
  readonly #contents: string[] = [''];
  readonly #alike = new Map<string, number>([['', 0]]);
  readonly #attributes = new Map<number, Attributes>();

  /** @param most elements that there may be */
  constructor(most: number) {
    this.starts = new Int32Array(most);
    this.ends = new Int32Array(most);
    this.nexts = new Int32Array(most);
    this.names = new Int32Array(most);
    this.#texts = new Int32Array(most);
  }

  /** Begins an element, which `end` ends when all that it holds is there; returns its number. */
  begin(name: string, start: number, attributes: Attributes | undefined): number {
    const node = this.#count++;
    this.starts[node] = start;
    this.names[node] = this.#numberFor(name);
    if (attributes !== undefined) this.#attributes.set(node, owned(attributes));
    return node;
  }

  end(node: number, end: number, text: string): void {
    this.ends[node] = end;
    this.nexts[node] = this.#count;
    this.#texts[node] = text.length > SHORT ? this.#contents.push(copied(text)) - 1 : this.#numberOf(text);
  }

  /** A name as written in the text. */
  written(name: number): string {
    return this.#written[name] as string;
  }

  /** Number of a written name; -1 where no element has it. */
  nameNumber(written: string): number {
    return this.#numbers.get(written) ?? -1;
  }

  /** An element's own character data. */
  text(node: number): string {
    return this.#contents[this.#texts[node] as number] as string;
  }

  attributes(node: number): Attributes {
    return this.#attributes.get(node) ?? NO_ATTRIBUTES;
  }

  #numberFor(name: string): number {
    let number = this.#numbers.get(name);
    if (number === undefined) {
      number = this.#written.push(name) - 1;
      this.#numbers.set(name, number);
    }
    return number;
  }

  #numberOf(text: string): number {
    let number = this.#alike.get(text);
    if (number === undefined) {
      number = this.#contents.push(text) - 1;
      this.#alike.set(text, number);
    }
    return number;
  }
}

/** What keeps nothing of the text in memory that the parser was given. */
function owned(attributes: Attributes): Attributes {
  for (const name in attributes) {
    if ((attributes[name] as string).length > SHORT)
      (attributes as Record<string, string>)[name] = copied(attributes[name] as string);
  }
  return attributes;
}

function copied(text: string): string {
  return text.length > LONG ? text : text.split('').join('');
}
