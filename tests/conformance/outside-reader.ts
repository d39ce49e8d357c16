import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';

/** A score as verovio understood it, in MEI. */
export interface OutsideView {
  /** Everything of the music but fingerings, directions and page heads, with ids renumbered: equal where the music is. */
  readonly music: string;
  /** `pitch octave digit` of each fingering, sorted. */
  readonly digits: readonly string[];
  /** `text @measure:beat staff` of each direction that prints something, the text of each page head, without white space; sorted. */
  readonly words: readonly string[];
}

/** MEI of `parts` in `measures`: verovio reads no score-timewise, so the same elements go in partwise order. */
export function asPartwise(text: string): string {
  const root = parseTree(text, DEFAULT_LIMITS);
  if (root.name !== 'score-timewise') return text;
  const slice = ({ span }: XmlElement) => text.slice(span.start, span.end);
  const parts = new Map<string, string>();
  for (const measure of root.all('measure')) {
    for (const part of measure.all('part')) {
      const id = part.attribute('id') ?? '';
      const content = `<measure number="${measure.attribute('number')}">${part.children.map(slice).join('')}</measure>`;
      parts.set(id, (parts.get(id) ?? '') + content);
    }
  }
  const header = root.children.filter(({ name }) => name !== 'measure').map(slice);
  const body = [...parts].map(([id, content]) => `<part id="${id}">${content}</part>`);
  return `<score-partwise version="4.0">${[...header, ...body].join('')}</score-partwise>`;
}

function all(element: XmlElement, name: string): XmlElement[] {
  return element.children.flatMap((child) => (child.name === name ? [child] : all(child, name)));
}

function everyNote(element: XmlElement): XmlElement[] {
  return element.children.flatMap((child) => (child.name === 'note' ? [child] : everyNote(child)));
}

/** All character data in order of the elements, without the white space that a reader may rearrange. */
function deepText(element: XmlElement): string {
  return element.text.replaceAll(/\s+/g, '') + element.children.map(deepText).join('');
}

function view(mei: string): OutsideView {
  const [, music = ''] = /<music>([\s\S]*)<\/music>/.exec(mei) ?? [];
  const root = parseTree(`<music>${music}</music>`, DEFAULT_LIMITS);
  const notes = new Map(everyNote(root).map((note) => [`#${note.attribute('xml:id')}`, note]));
  const digits = all(root, 'fing').map((fing) => {
    const note = notes.get(fing.attribute('startid') ?? '');
    return `${note?.attribute('pname')} ${note?.attribute('oct')} ${deepText(fing)}`;
  });
  const heads = all(root, 'pgHead').flatMap((head) => all(head, 'rend'));
  const words = all(root, 'measure').flatMap((measure) =>
    all(measure, 'dir').flatMap((dir) => {
      const beat = Number(dir.attribute('tstamp')).toFixed(4);
      const text = deepText(dir);
      return text === '' ? [] : `${text} @${measure.attribute('n')}:${beat} ${dir.attribute('staff')}`;
    }),
  );
  words.push(...heads.map(deepText));
  const ids = new Map<string, string>();
  const renumber = (id: string) => {
    if (!ids.has(id)) ids.set(id, `n${ids.size}`);
    return ids.get(id) as string;
  };
  const bare = music
    .replaceAll(/\s*<(fing|dir|pgHead)\b[^>]*(?:\/>|>[\s\S]*?<\/\1>)/g, '')
    .replaceAll(/(xml:id="|#)([a-z][a-z0-9]*|P\d+)\b/g, (_, lead: string, id: string) => lead + renumber(id));
  return { music: bare, digits: digits.sort(), words: words.sort() };
}

/** Reads MusicXML with verovio. Notes without a pitch name show as `undefined` in `digits`. */
export async function outsideReader(): Promise<(text: string) => OutsideView> {
  const module = await createModule();
  enableLog(LOG_OFF, module);
  const toolkit = new VerovioToolkit(module);
  toolkit.setOptions({ breaks: 'none', header: 'none', footer: 'none' });
  return (text) => {
    // Decoding takes the byte-order mark away before verovio sees a string.
    if (!toolkit.loadData(asPartwise(text.replace(/^\ufeff/, ''))))
      throw new Error('verovio cannot read the score');
    return view(toolkit.getMEI({}));
  };
}
