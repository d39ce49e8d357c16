import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { type Box, boxOf, type Curve, curvesOf, type Owner, type Side, textBoxes } from './shapes.js';

/** What is printed on a page, in verovio's units, y downwards. */
export interface Page {
  /** Lines of words, digits and lyrics as they are inked; dynamics, hairpins and other signs. */
  readonly boxes: readonly Box[];
  readonly slurs: readonly Curve[];
}

const module = await createModule();
enableLog(LOG_OFF, module);
export const toolkit = new VerovioToolkit(module);
toolkit.setOptions({
  pageWidth: 2100,
  pageHeight: 2970,
  scale: 100,
  footer: 'none',
  svgBoundingBoxes: true,
});

/**
 * The first pages of a score as verovio draws them.
 *
 * @param breaks where systems and pages break: where verovio finds room, or where the score says
 */
export function drawnPages(
  text: string,
  most = Number.POSITIVE_INFINITY,
  breaks: 'auto' | 'encoded' = 'auto',
): Page[] {
  toolkit.setOptions({ breaks });
  if (!toolkit.loadData(text)) throw new Error('verovio cannot read the score');
  const ours = oursIn(toolkit.getMEI({}));
  const count = Math.min(toolkit.getPageCount(), most);
  return Array.from({ length: count }, (_, nth) => pageOf(toolkit.renderToSVG(nth + 1), ours));
}

/** By the ids of the directions whose words have our token in their font, their sides of the staff. */
function oursIn(mei: string): ReadonlyMap<string, Side> {
  const dirs = mei.matchAll(/<dir xml:id="([^"]+)"([^>]*)>\s*<rend [^>]*fontfam="[^"]*,handline-/g);
  return new Map(
    Array.from(dirs, ([, id, own]) => [id!, own!.includes('place="above"') ? 'above' : 'below'] as const),
  );
}

const TEXTS = new Set(['dir', 'fing', 'tempo', 'syl', 'harm', 'reh']);
const SHAPES = new Set(['dynam', 'hairpin', 'pedal', 'octave', 'trill', 'mordent', 'turn', 'fermata']);

function pageOf(svg: string, ours: ReadonlyMap<string, Side>): Page {
  const boxes: Box[] = [];
  const slurs: Curve[] = [];
  let system = 0;
  let elements = 0;
  const visit = (element: XmlElement): void => {
    const classes = element.attribute('class')?.split(' ') ?? [];
    const kind = classes[0] ?? '';
    if (kind === 'system') system++;
    // What goes on in a system has its id among its classes.
    const ids = [element.attribute('id') ?? '', ...classes.map((name) => name.replace(/^id-/, ''))];
    const side = ours.get(ids.find((id) => ours.has(id)) ?? '');
    const own = { kind, ours: side !== undefined, side, system, element: ++elements };
    if (TEXTS.has(kind)) boxes.push(...textBoxes(element, own));
    else if (SHAPES.has(kind)) boxes.push(...boundingBoxes(element, own));
    else if (kind === 'slur') slurs.push(...curvesOf(element));
    else for (const child of element.children) visit(child);
  };
  visit(parseTree(svg, { ...DEFAULT_LIMITS, maxBytes: Number.MAX_SAFE_INTEGER }));
  return { boxes, slurs };
}

function boundingBoxes(element: XmlElement, own: Owner): Box[] {
  return element.children
    .filter((child) => child.attribute('class')?.includes('bounding-box'))
    .flatMap((child) => child.all('rect').map((rect) => boxOf(rect, own)));
}
