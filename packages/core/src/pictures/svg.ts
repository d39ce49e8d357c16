import { create } from '#xmlbuilder2';
import type { Language } from '../options/options.js';

/** An element of a picture. Numbers are mm on paper unless the attribute says otherwise. */
export interface Shape {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly text?: string;
  readonly children?: readonly Shape[];
}

export interface Picture {
  /** mm on paper. */
  readonly width: number;
  readonly height: number;
  readonly kind: 'depth' | 'carry' | 'keyboard';
  /** What a screen reader says, in short and at length. */
  readonly title: string;
  readonly description: string;
  readonly language: Language;
  readonly shapes: readonly Shape[];
}

type Tree = ReturnType<typeof create>;

/** Decimals of a length: a hundredth of a millimetre is finer than any printer. */
const PRECISION = 100;

/** Signs that XML cannot hold. */
const FORBIDDEN = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufffe\uffff]/gu;

export function shape(name: string, attributes: Shape['attributes'], children?: readonly Shape[]): Shape {
  return children ? { name, attributes, children } : { name, attributes };
}

/** A text around a point; `size` is the height of its letters' body in mm. */
export function label(
  text: string,
  x: number,
  y: number,
  size: number,
  attributes: Shape['attributes'] = {},
): Shape {
  return { name: 'text', attributes: { x, y, 'font-size': size, ...attributes }, text };
}

/**
 * The picture as one `<svg>` element, sized in mm and drawn in mm. Lines take the colour of the text around it; what is
 * painted white has the class `paper`. Nothing in it runs from right to left, whatever the page does.
 */
export function svgText(picture: Picture): string {
  const { width, height, kind, title, description, language, shapes } = picture;
  const root = create().ele('svg', {
    xmlns: 'http://www.w3.org/2000/svg',
    class: `handline-picture ${kind}`,
    role: 'img',
    'xml:lang': language,
    width: `${decimal(width)}mm`,
    height: `${decimal(height)}mm`,
    viewBox: `0 0 ${decimal(width)} ${decimal(height)}`,
    direction: 'ltr',
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': '0.2',
    'stroke-linecap': 'round',
    'stroke-linejoin': 'round',
    'font-family': 'Liberation Sans, Arial, Helvetica, sans-serif',
  });
  root.ele('title').txt(clean(title));
  root.ele('desc').txt(clean(description));
  for (const one of shapes) append(root, one);
  return root.toString({ headless: true });
}

function append(parent: Tree, { name, attributes, text, children = [] }: Shape): void {
  const isText = name === 'text' ? { fill: 'currentColor', stroke: 'none' } : {};
  const written: Record<string, string> = { ...isText };
  for (const [key, value] of Object.entries(attributes)) {
    written[key] = clean(typeof value === 'number' ? decimal(value) : value);
  }
  const node = parent.ele(name, written);
  if (text !== undefined) node.txt(clean(text));
  for (const child of children) append(node, child);
}

/** A number as attributes and paths hold it. */
export function decimal(value: number): string {
  return `${Math.round(value * PRECISION) / PRECISION + 0}`;
}

/** Points as a path: `M x y L x y ...` */
export function pathOf(points: readonly (readonly [x: number, y: number])[]): string {
  return points.map(([x, y], nth) => `${nth === 0 ? 'M' : 'L'}${decimal(x)} ${decimal(y)}`).join(' ');
}

/** A text that can be built in: xmlbuilder2 takes what looks like a reference for one, so that `&` goes in as `&amp;`. */
function clean(text: string): string {
  return text.replaceAll(FORBIDDEN, '\ufffd').replaceAll('&', '&amp;');
}
