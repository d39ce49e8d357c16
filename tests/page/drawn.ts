import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { type Box, boxOf, type Curve, curvesOf, textBoxes } from './shapes.js';

/** What is printed on a page, in verovio's units, y downwards. */
export interface Page {
  /** Lines of words, digits and lyrics as they are inked; dynamics, hairpins and other signs. */
  readonly boxes: readonly Box[];
  readonly slurs: readonly Curve[];
}

const module = await createModule();
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);
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

/** Ids of the directions whose words have our token in their font. */
function oursIn(mei: string): ReadonlySet<string> {
  const ids = mei.matchAll(/<dir xml:id="([^"]+)"[^>]*>\s*<rend [^>]*fontfam="[^"]*,handline-/g);
  return new Set(Array.from(ids, ([, id]) => id!));
}

const TEXTS = new Set(['dir', 'fing', 'tempo', 'syl', 'harm', 'reh']);
const SHAPES = new Set(['dynam', 'hairpin', 'pedal', 'octave', 'trill', 'mordent', 'turn', 'fermata']);

function pageOf(svg: string, ours: ReadonlySet<string>): Page {
  const boxes: Box[] = [];
  const slurs: Curve[] = [];
  let system = 0;
  const visit = (element: XmlElement): void => {
    const kind = element.attribute('class')?.split(' ')[0] ?? '';
    if (kind === 'system') system++;
    const own = { kind, ours: ours.has(element.attribute('id') ?? ''), system };
    if (TEXTS.has(kind)) boxes.push(...textBoxes(element, own));
    else if (SHAPES.has(kind)) boxes.push(...boundingBoxes(element, own));
    else if (kind === 'slur') slurs.push(...curvesOf(element));
    else for (const child of element.children) visit(child);
  };
  visit(parseTree(svg, { ...DEFAULT_LIMITS, maxBytes: Number.MAX_SAFE_INTEGER }));
  return { boxes, slurs };
}

function boundingBoxes(element: XmlElement, own: Pick<Box, 'kind' | 'ours' | 'system'>): Box[] {
  return element.children
    .filter((child) => child.attribute('class')?.includes('bounding-box'))
    .flatMap((child) => child.all('rect').map((rect) => boxOf(rect, own)));
}
