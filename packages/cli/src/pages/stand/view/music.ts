import type { Notes } from '../notes.js';
import type { Drawn, DrawnSystem, Run } from '../workers/shown.js';
import { decorateDigits } from './digits.js';
import { byId, element } from './dom.js';

const SVG = 'http://www.w3.org/2000/svg';
/** Room beside a notehead in its ring, in verovio's units. */
const RING_ROOM = 90;
/** Systems that are engraved anew in one go, about a screenful. */
const MOST_AT_ONCE = 3;

interface System extends Pick<DrawnSystem, 'first' | 'last'> {
  readonly element: Element;
  isStale: boolean;
}

/** Fingers that the state before had where another plays now, by the id of the note head. */
export type Before = ReadonlyMap<string, number>;

/** The engraved music, system by system, whose digits say whose they are. */
export class Music {
  readonly #root = byId('music');
  #systems: System[] = [];
  #font = '';
  #before: Before = new Map();

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
    this.#systems = [];
    this.#before = new Map();
    this.#root.replaceChildren();
  }

  /** Systems of which this says so are engraved anew. */
  markStale(isStale: (first: number, last: number) => boolean): void {
    for (const system of this.#systems) system.isStale ||= isStale(system.first, system.last);
  }

  /** What is engraved next: what is stale, that in view first; then the measures behind all others. */
  next(measures: number): Run | { readonly first: number } | undefined {
    const inView = this.#systems.filter((system) => system.isStale && this.#isInView(system));
    const [start] = inView.length > 0 ? inView : this.#systems.filter(({ isStale }) => isStale);
    if (start) return this.#run(start);
    const first = (this.#systems.at(-1)?.last ?? -1) + 1;
    return first < measures ? { first } : undefined;
  }

  /** A system and those behind it, as long as they are stale too. */
  #run(start: System): Run {
    const from = this.#systems.indexOf(start);
    let to = from;
    while (to - from + 1 < MOST_AT_ONCE && this.#systems[to + 1]?.isStale) to += 1;
    return { first: start.first, last: this.#systems[to]!.last, systems: to - from + 1 };
  }

  #isInView({ element: own }: System): boolean {
    const { top, bottom } = this.#root.getBoundingClientRect();
    const box = own.getBoundingClientRect();
    return box.bottom > Math.max(0, top) && box.top < Math.min(innerHeight, bottom);
  }

  /** Puts systems in the place of those that have the same measures, or behind the others. */
  put({ systems, font }: Drawn, notes: Notes): void {
    if (font !== '' && font !== this.#font) {
      this.#font = font;
      document.head.append(element('style', font));
    }
    const template = element('template');
    // Our own markup, in which all texts of the score are escaped; scripts in it would be stopped by the page's policy.
    template.innerHTML = systems.map(({ html }) => html).join('');
    const figures = [...template.content.children];
    const drawn = systems.map(({ first, last }, nth) => ({
      first,
      last,
      element: figures[nth]!,
      isStale: false,
    }));
    const at = this.#systems.findIndex(({ last }) => last >= systems[0]!.first);
    const from = at < 0 ? this.#systems.length : at;
    const old = this.#systems.slice(from).filter(({ first }) => first <= systems.at(-1)!.last);
    this.#systems.splice(from, old.length, ...drawn);
    if (old.length === 0) this.#root.append(...figures);
    else old[0]!.element.before(...figures);
    for (const { element: own } of old) own.remove();
    this.#decorate(figures, notes);
  }

  /** Shows the fingers as they are now, before the music is engraved anew. */
  showDigits(notes: Notes): void {
    this.#decorate(
      this.#systems.map(({ element: own }) => own),
      notes,
    );
  }

  /** Shows what the fingers were before, crossed out beside the digits of now. */
  showBefore(before: Before, notes: Notes): void {
    if (before.size === 0 && this.#before.size === 0) return;
    this.#before = before;
    this.showDigits(notes);
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

  #decorate(own: readonly Element[], notes: Notes): void {
    const digits = own.flatMap((one) => [...one.querySelectorAll<SVGGraphicsElement>('[data-digit-of]')]);
    decorateDigits(
      digits.flatMap((digit) => {
        const id = digit.dataset.digitOf!;
        const place = notes.placeOf(id);
        const struck = place && notes.at(place);
        return struck ? [{ digit, struck, before: this.#before.get(id) }] : [];
      }),
    );
  }
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
