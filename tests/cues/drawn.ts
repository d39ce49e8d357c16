import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';

/** A box on the page in verovio's units, y downwards. */
export interface Box {
  readonly kind: string;
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A slur's curve as points from its start to its end. */
export type Curve = readonly (readonly [x: number, y: number])[];

export interface Page {
  readonly boxes: readonly Box[];
  readonly slurs: readonly Curve[];
}

/** Mean advance of a roman italic letter and the heights of most letters above and below the line, in ems: from memory. */
const ADVANCE = 0.4;
const RISE = 0.6;
const FALL = 0.1;
/** Digits are upright and bold: half an em wide, and as high as capitals. From memory. */
const DIGIT_ADVANCE = 0.5;
const DIGIT_RISE = 0.68;
const CURVE_POINTS = 41;

/** Boxes of the words, digits, dynamics and syllables of one SVG page. */
function boxes(svg: string): Box[] {
  const groups = svg.matchAll(
    /class="(dir|fing|dynam|syl)">\s*(?:<text x="(\d+)" y="(\d+)"([^>]*)>([\s\S]*?)<\/text>|<use [^>]*translate\((\d+), (\d+)\))/g,
  );
  return [...groups].map(([, kind, x, y, attributes, content, useX, useY]) => {
    if (content === undefined) {
      const [left, bottom] = [Number(useX), Number(useY)];
      return { kind: kind!, text: 'dynamic', left, right: left + 300, top: bottom - 250, bottom };
    }
    const size = Number(/font-size="([1-9]\d*)px"/.exec(content)?.[1] ?? 0);
    const text = content
      .replaceAll(/<[^>]*>/g, '')
      .trim()
      .replaceAll(/\s+/g, ' ');
    const digit = kind === 'fing';
    const width = text.length * (digit ? DIGIT_ADVANCE : ADVANCE) * size;
    const left = Number(x) - (attributes!.includes('middle') ? width / 2 : 0);
    const [top, bottom] = [
      Number(y) - (digit ? DIGIT_RISE : RISE) * size,
      Number(y) + (digit ? 0 : FALL) * size,
    ];
    return { kind: kind!, text, left, right: left + width, top, bottom };
  });
}

/** Every hairpin as a box. */
function hairpins(svg: string): Box[] {
  return [...svg.matchAll(/class="hairpin">\s*<polyline [^>]*points="([^"]*)"/g)].map(([, points]) => {
    const numbers = points!.trim().split(/[ ,]+/).map(Number);
    const xs = numbers.filter((_, at) => at % 2 === 0);
    const ys = numbers.filter((_, at) => at % 2 === 1);
    const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    return { kind: 'hairpin', text: 'hairpin', left, right, top, bottom };
  });
}

/** The first of the two cubics that draw a slur, there and back. */
function slurs(svg: string): Curve[] {
  return [...svg.matchAll(/class="slur">\s*<path d="M([-\d ,C]*)/g)].map(([, path]) => {
    const [ax, ay, bx, by, cx, cy, dx, dy] = path!.split(/[ ,C]+/).map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return Array.from({ length: CURVE_POINTS }, (_, nth) => {
      const t = nth / (CURVE_POINTS - 1);
      const [s, u] = [1 - t, 3 * t * (1 - t)];
      const at = (a: number, b: number, c: number, d: number) =>
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

const module = await createModule();
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);
toolkit.setOptions({ pageWidth: 2100, pageHeight: 2970, scale: 100, footer: 'none' });

/**
 * Every page of a score as verovio draws it.
 *
 * @param breaks where systems and pages break: where verovio finds room, or where the score says
 */
export function drawnPages(text: string, breaks: 'auto' | 'encoded' = 'auto'): Page[] {
  toolkit.setOptions({ breaks });
  toolkit.loadData(text);
  return Array.from({ length: toolkit.getPageCount() }, (_, nth) => {
    const svg = toolkit.renderToSVG(nth + 1);
    return { boxes: [...boxes(svg), ...hairpins(svg)], slurs: slurs(svg) };
  });
}
