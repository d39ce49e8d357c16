import type { XmlElement } from '#core/musicxml/xml/tree.js';

/** Where something is printed, in verovio's units, y downwards. */
export interface Box {
  readonly kind: string;
  readonly text: string;
  /** Words of ours, or the dashes behind them. */
  readonly ours: boolean;
  /** Of its staff, where it is ours. */
  readonly side?: Side | undefined;
  /** Number of its system on the page. */
  readonly system: number;
  /** Number of the element on the page that it belongs to, as a line does to a text of several. */
  readonly element: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type Side = 'above' | 'below';

export type Owner = Pick<Box, 'kind' | 'ours' | 'side' | 'system' | 'element'>;

/** A slur as points from its start to its end. */
export type Curve = readonly (readonly [x: number, y: number])[];

/** Share of a text's height above the line it stands on: from verovio's own boxes (205 of 270, 279 of 363). */
const ABOVE_LINE = 0.76;
/** Letters and signs that go below the line, and those that are no higher than an x. */
const GOES_BELOW = /[gjpqyçGJQ,;()|]/;
/** Mean advance of a letter in ems, and its height: from memory; only for lyrics, of which verovio tells no boxes. */
const ADVANCE = 0.42;
const RISE = 0.68;
/** Width of a space in ems, which verovio counts to a text where it is one that does not break. */
const SPACE = 0.442;
const CURVE_POINTS = 41;

export function boxOf(rect: XmlElement, owner: Owner): Box {
  const number = (name: string): number => Number(rect.attribute(name));
  const [left, top] = [number('x'), number('y')];
  return {
    ...owner,
    text: owner.kind,
    left,
    right: left + number('width'),
    top,
    bottom: top + number('height'),
  };
}

/** The ink of every run of letters in one element, and of the dashes behind them. */
export function textBoxes(element: XmlElement, owner: Owner): Box[] {
  const dashes = element.all('rect').map((rect) => ({ ...boxOf(rect, owner), text: '–' }));
  return [...dashes, ...letterBoxes(element, owner)];
}

function letterBoxes(element: XmlElement, owner: Owner): Box[] {
  return texts(element).flatMap((run) => {
    const whole = deepText(run);
    const text = whole.trim().replaceAll(/\s+/g, ' ');
    if (text === '') return [];
    const rect = run.children.find(isBounds)?.child('rect');
    const box = rect ? boxOf(rect, owner) : guessedBox(run, text, owner);
    const line = box.top + ABOVE_LINE * (box.bottom - box.top);
    const blank = SPACE * sizeOf(run) * [...whole].filter((c) => c === '\u00a0' || c === '\u2002').length;
    return [{ ...box, text, right: box.right - blank, bottom: GOES_BELOW.test(text) ? box.bottom : line }];
  });
}

function isBounds(element: XmlElement): boolean {
  return element.attribute('class')?.includes('bounding-box') ?? false;
}

function texts(element: XmlElement): readonly XmlElement[] {
  return element.attribute('class') === 'text' ? [element] : element.children.flatMap(texts);
}

function deepText(element: XmlElement): string {
  return element.text + element.children.map(deepText).join('');
}

function sizeOf(run: XmlElement): number {
  return Number.parseFloat(run.children.at(-1)?.attribute('font-size') ?? '0');
}

function guessedBox(run: XmlElement, text: string, owner: Owner): Box {
  const size = sizeOf(run);
  let placed: XmlElement | undefined = run;
  while (placed !== undefined && placed.attribute('x') === undefined) placed = placed.parent;
  const [left, bottom] = [Number(placed?.attribute('x')), Number(placed?.attribute('y'))];
  return {
    ...owner,
    text,
    left,
    right: left + ADVANCE * size * text.length,
    top: bottom - RISE * size,
    bottom,
  };
}

/** The first of the two cubics that draw every piece of a slur, there and back. */
export function curvesOf(element: XmlElement): Curve[] {
  return element.all('path').map((path) => {
    const numbers = path
      .attribute('d')!
      .slice(1)
      .split(/[ ,C]+/)
      .map(Number);
    const [ax = 0, ay = 0, bx = 0, by = 0, cx = 0, cy = 0, dx = 0, dy = 0] = numbers;
    return Array.from({ length: CURVE_POINTS }, (_, nth) => {
      const t = nth / (CURVE_POINTS - 1);
      const [s, u] = [1 - t, 3 * t * (1 - t)];
      const at = (a: number, b: number, c: number, d: number): number =>
        s ** 3 * a + u * s * b + u * t * c + t ** 3 * d;
      return [at(ax, bx, cx, dx), at(ay, by, cy, dy)] as const;
    });
  });
}

export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

export function touches(box: Box, curve: Curve): boolean {
  return curve.some(([x, y]) => x > box.left && x < box.right && y > box.top && y < box.bottom);
}
