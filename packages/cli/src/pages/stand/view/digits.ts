import type { Struck } from '../notes.js';

const SVG = 'http://www.w3.org/2000/svg';
/** Room around a digit in its box, in verovio's units. */
const BOX_ROOM = 40;

/** A digit in the music, with what is to be shown at it. */
export interface DigitOf {
  readonly digit: SVGGraphicsElement;
  readonly struck: Struck;
  /** The finger that the state before had there. */
  readonly before: number | undefined;
}

/** A box around the user's digits, a line under the score's own; fingers of before beside them, crossed out. */
export function decorateDigits(digits: readonly DigitOf[]): void {
  const texts = digits.map(({ digit, struck: { finger } }) => {
    for (const old of digit.querySelectorAll('.yours, .given, .before')) old.remove();
    const inner = [...digit.querySelectorAll('tspan')].at(-1);
    if (inner?.textContent?.length === 1 && finger !== null && inner.textContent !== `${finger}`)
      inner.textContent = `${finger}`;
    return inner;
  });
  // Measured all together, because the browser lays the page out anew for the first one after a change.
  const marked = digits.flatMap((own, nth) => {
    const { whose } = own.struck;
    const inner = texts[nth];
    const text = inner?.closest('text');
    if (!inner || !text || (whose !== 'yours' && whose !== 'given' && own.before === undefined)) return [];
    return [{ ...own, whose, inner, box: text.getBBox() }];
  });
  for (const { digit, whose, before, inner, box } of marked) {
    if (whose === 'yours' || whose === 'given') digit.append(markOf(whose, box));
    if (before !== undefined) digit.append(...crossedOut(before, inner, box));
  }
}

function markOf(whose: 'yours' | 'given', { x, y, width, height }: DOMRect): SVGPathElement {
  const [left, right] = [x - BOX_ROOM, x + width + BOX_ROOM];
  const [top, bottom] = [y + height * 0.12, y + height * 0.92];
  const line = `M${left} ${bottom}H${right}`;
  return path(whose, whose === 'yours' ? `${line}V${top}H${left}Z` : line);
}

/** As one does it with a pencil. */
function crossedOut(finger: number, inner: Element, { x, y, width, height }: DOMRect): Element[] {
  const own = document.createElementNS(SVG, 'text');
  const size = Number.parseFloat(inner.getAttribute('font-size') ?? '400');
  const left = x + width + 3 * BOX_ROOM;
  const base = y + height * 0.8;
  own.setAttribute('class', 'before');
  own.setAttribute('x', `${left}`);
  own.setAttribute('y', `${base}`);
  own.setAttribute('font-size', `${size}px`);
  own.textContent = `${finger}`;
  const middle = base - 0.33 * size;
  return [own, path('before', `M${left - BOX_ROOM} ${middle}h${width + 2 * BOX_ROOM}`)];
}

function path(name: string, d: string): SVGPathElement {
  const made = document.createElementNS(SVG, 'path');
  made.setAttribute('class', name);
  made.setAttribute('d', d);
  return made;
}
