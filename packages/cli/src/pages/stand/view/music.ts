import type { Notes, Struck } from '../notes.js';
import type { DrawnSection } from '../workers/shown.js';
import { byId, element } from './dom.js';

const SVG = 'http://www.w3.org/2000/svg';
/** Room around a digit in its box, and beside a notehead in its ring, in verovio's units. */
const BOX_ROOM = 40;
const RING_ROOM = 90;

interface Section extends Pick<DrawnSection, 'first' | 'last'> {
  readonly element: HTMLElement;
  stale: boolean;
}

/** The engraved music: systems in sections, whose digits say whose they are. */
export class Music {
  readonly #root = byId('music');
  #sections: Section[] = [];
  #font = '';

  /** @param choose hears which note is clicked */
  constructor(choose: (id: string) => void) {
    this.#root.tabIndex = 0;
    this.#root.addEventListener('click', (event) => {
      const id = nearestNote(event);
      if (id) choose(id);
      this.#root.focus({ preventScroll: true });
    });
  }

  clear(): void {
    this.#sections = [];
    this.#root.replaceChildren();
  }

  /** Sections of which this says so are engraved anew. */
  markStale(isStale: (first: number, last: number) => boolean): void {
    for (const section of this.#sections) section.stale ||= isStale(section.first, section.last);
  }

  /** What is engraved next: what is stale, that in view first; then the measures behind all others. */
  next(measures: number): { readonly from: number; readonly to?: number } | undefined {
    const stale = this.#sections.filter((section) => section.stale);
    const { top, bottom } = this.#root.getBoundingClientRect();
    const inView = stale.find((section) => {
      const box = section.element.getBoundingClientRect();
      return box.bottom > Math.max(0, top) && box.top < Math.min(innerHeight, bottom);
    });
    const section = inView ?? stale[0];
    if (section) return { from: section.first, to: section.last };
    const from = (this.#sections.at(-1)?.last ?? -1) + 1;
    return from < measures ? { from } : undefined;
  }

  /** Puts a section in its place. */
  put({ first, last, html, font }: DrawnSection, notes: Notes): void {
    if (font !== '' && font !== this.#font) {
      this.#font = font;
      document.head.append(element('style', font));
    }
    let section = this.#sections.find((own) => own.first === first);
    if (section) section.stale = false;
    else {
      section = { first, last, element: element('div'), stale: false };
      this.#sections.push(section);
      this.#root.append(section.element);
    }
    // Our own markup, in which all texts of the score are escaped; scripts in it would be stopped by the page's policy.
    section.element.innerHTML = html;
    this.#decorate(section.element, notes);
  }

  /** Shows the fingers as they are now, before the music is engraved anew. */
  showDigits(notes: Notes): void {
    for (const { element: own } of this.#sections) this.#decorate(own, notes);
  }

  /** Rings a note and brings it into view. */
  ring(ids: readonly string[], scroll: boolean): void {
    for (const own of this.#root.querySelectorAll('.ring')) own.remove();
    for (const id of ids) {
      const head = this.#root.querySelector<SVGGraphicsElement>(`[data-note="${id}"] .notehead`);
      if (!head) continue;
      const { x, y, width, height } = head.getBBox();
      const ring = document.createElementNS(SVG, 'ellipse');
      ring.setAttribute('class', 'ring');
      ring.setAttribute('cx', `${x + width / 2}`);
      ring.setAttribute('cy', `${y + height / 2}`);
      ring.setAttribute('rx', `${width / 2 + RING_ROOM}`);
      ring.setAttribute('ry', `${height / 2 + RING_ROOM}`);
      head.append(ring);
      if (scroll) head.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    }
  }

  #decorate(own: HTMLElement, notes: Notes): void {
    for (const digit of own.querySelectorAll<SVGGraphicsElement>('[data-digit-of]')) {
      const place = notes.placeOf(digit.dataset.digitOf!);
      const struck = place && notes.at(place);
      if (struck) decorateDigit(digit, struck);
    }
  }
}

/** A box around the user's digit, a line under the score's own. */
function decorateDigit(digit: SVGGraphicsElement, { finger, whose }: Struck): void {
  const text = digit.querySelector('text');
  const inner = [...digit.querySelectorAll('tspan')].at(-1);
  if (!text || !inner) return;
  if (finger !== null && inner.textContent?.length === 1) inner.textContent = `${finger}`;
  digit.querySelector('.yours, .given')?.remove();
  if (whose !== 'yours' && whose !== 'given') return;
  const { x, y, width, height } = text.getBBox();
  const mark = document.createElementNS(SVG, 'path');
  const [left, right] = [x - BOX_ROOM, x + width + BOX_ROOM];
  const [top, bottom] = [y + height * 0.12, y + height * 0.92];
  const line = `M${left} ${bottom}H${right}`;
  mark.setAttribute('class', whose);
  mark.setAttribute('d', whose === 'yours' ? `${line}V${top}H${left}Z` : line);
  digit.append(mark);
}

/** px beyond which a click means no note. */
const FARTHEST = 60;

/** So a fingertip need not hit a notehead. */
function nearestNote(event: MouseEvent): string | undefined {
  const paper = (event.target as Element).closest('.paper');
  let nearest: string | undefined;
  let least = FARTHEST;
  for (const head of paper?.querySelectorAll('[data-note] .notehead') ?? []) {
    const { left, right, top, bottom } = head.getBoundingClientRect();
    const off = Math.hypot((left + right) / 2 - event.clientX, (top + bottom) / 2 - event.clientY);
    if (off >= least) continue;
    least = off;
    nearest = head.closest<SVGElement>('[data-note]')!.dataset.note;
  }
  return nearest;
}
