import type { Style } from './generate.js';

/** A plain element to serialise: text or children. */
export interface Xml {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly content: string | readonly Xml[];
}

export function xml(name: string, content: string | readonly Xml[] = [], attributes = {}): Xml {
  return { name, attributes, content };
}

// What may stand between two tags without touching validity or meaning; `#` becomes a running number.
const ODDITIES = [
  '',
  '\n\n',
  '   ',
  '\t ',
  '<!-- note #: <note> is "quoted" -->',
  "<?layout it's <!-- #?>",
  '<!-- <?handline digit 3?> -->',
  '<!--#-->\n',
  ' \n \n',
  "<?other a='1'?>",
];

function escapeText(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}

/** Serialises with the style's white space and oddities. */
class Serialiser {
  #step = 0;
  readonly #pieces: string[] = [];

  constructor(private readonly style: Style) {}

  write(element: Xml, depth: number, inline: boolean): string {
    this.#element(element, depth, inline);
    return this.#pieces.join('');
  }

  #noise(): number {
    const { noise } = this.style;
    this.#step++;
    return noise[this.#step % noise.length] ?? 0;
  }

  #gap(depth: number, inline: boolean): void {
    const oddity = ODDITIES[this.#noise()] ?? '';
    const { newline, indent } = this.style;
    this.#pieces.push(
      oddity.replaceAll('#', String(this.#step)).replaceAll('\n', newline === '' ? ' ' : newline),
    );
    if (!inline && newline !== '') this.#pieces.push(newline, indent.repeat(depth));
  }

  #element({ name, attributes, content }: Xml, depth: number, inline: boolean): void {
    const { quote, notesInline } = this.style;
    const list = Object.entries(attributes).map(([key, value]) => ` ${key}=${quote}${value}${quote}`);
    const open = `<${name}${list.join('')}`;
    if (typeof content === 'string') {
      const cdata = this.#noise() === 10 && /^(?:words|text|part-name)$/.test(name);
      this.#pieces.push(`${open}>${cdata ? `<![CDATA[${content}]]>` : escapeText(content)}</${name}>`);
      return;
    }
    if (content.length === 0) {
      this.#pieces.push(this.#empty(open, name));
      return;
    }
    this.#pieces.push(`${open}>`);
    const inner = inline || (notesInline && name === 'note');
    for (const child of content) {
      this.#gap(depth + 1, inner);
      this.#element(child, depth + 1, inner);
    }
    this.#gap(depth, inner);
    this.#pieces.push(`</${name}>`);
  }

  #empty(open: string, name: string): string {
    if (name.startsWith('open-')) return `<${name.slice(5)}></${name.slice(5)}>`;
    return this.#noise() === 11 ? `${open} />` : `${open}/>`;
  }
}

export function serialise(root: Xml, style: Style): string {
  const break_ = style.newline === '' ? '' : style.newline;
  const encoding = `<?xml version=${style.quote}1.0${style.quote} encoding=${style.quote}UTF-8${style.quote}?>`;
  const kind = root.name === 'score-timewise' ? 'Timewise' : 'Partwise';
  const id = `"-//Recordare//DTD MusicXML ${style.version ?? '1.0'} ${kind}//EN"`;
  const url = `"http://www.musicxml.org/dtds/${kind.toLowerCase()}.dtd"`;
  const head = {
    declaration: `${encoding}${break_}`,
    bom: `\ufeff${encoding}${break_}`,
    none: '',
    public: `${encoding}${break_}<!DOCTYPE ${root.name} PUBLIC ${id} ${url}>${break_}`,
    subset: `${encoding}${break_}<!DOCTYPE ${root.name} [${break_}<!ENTITY tune "an air"> ]>${break_}`,
  }[style.head];
  return `${head}${new Serialiser(style).write(root, 0, false)}${break_}`;
}
