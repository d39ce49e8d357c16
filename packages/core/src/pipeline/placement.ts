import type { Hand, Note, Part } from '../score/model.js';

export type Placement = 'above' | 'below';

/** Right-hand marks stand above their notes, left-hand marks below. */
export function handPlacement(hand: Hand): Placement {
  return hand === 'right' ? 'above' : 'below';
}

/**
 * Where a hand's digit stands: an inner voice has its digits on the side of its stems, below for the right hand and above
 * for the left, clear of the other voice's notes (common practice).
 */
export function digitPlacement(note: Note, hand: Hand, inner: InnerVoices): Placement {
  const plain = handPlacement(hand);
  return inner.has(note) ? opposite(plain) : plain;
}

/** Mean key of several notes. */
interface Height {
  sum: number;
  count: number;
}

/** Of several voices that share a staff in a measure the one next to the other hand, the right hand's lowest or the left's highest. */
export class InnerVoices {
  /** By measure and staff. */
  readonly #inner: (string | undefined)[][] = [];
  /** Onsets, by staff, at which the inner voice lies beyond the others, so that the digits change sides. */
  readonly #crossed = new Set<string>();

  /** @param part that one hand plays */
  constructor(
    part: Part,
    private readonly hand: Hand,
  ) {
    const measures: (Map<string, Height> | undefined)[][] = [];
    for (const note of part.notes) {
      measures[note.measure] ??= [];
      const staves = measures[note.measure]!;
      staves[note.staff] ??= new Map();
      addTo(staves[note.staff]!, note.voice, note);
    }
    for (const staves of measures) {
      const own: (string | undefined)[] = [];
      for (const voices of staves ?? []) own.push(voices && this.#innermost(voices));
      this.#inner.push(own);
    }
    this.#findCrossings(part);
  }

  /** Whether a note's digit stands on the inner side. */
  has(note: Note): boolean {
    const inner = this.#inner[note.measure]![note.staff];
    if (inner === undefined) return false;
    return (inner === note.voice) !== this.#crossed.has(placeOf(note));
  }

  /** Undefined where there is one voice only. */
  #innermost(voices: ReadonlyMap<string, Height>): string | undefined {
    if (voices.size < 2) return undefined;
    let inner: string | undefined;
    let most = Number.NEGATIVE_INFINITY;
    for (const [voice, height] of voices) {
      const nearness = this.#nearness(height);
      if (nearness > most) [inner, most] = [voice, nearness];
    }
    return inner;
  }

  /** How near the other hand keys lie. */
  #nearness({ sum, count }: Height): number {
    return this.hand === 'right' ? -sum / count : sum / count;
  }

  #findCrossings({ notes }: Part): void {
    const places = new Map<string, Map<boolean, Height>>();
    for (const note of notes) {
      const inner = this.#inner[note.measure]![note.staff];
      if (inner === undefined || note.grace >= 0 || note.tiedFrom >= 0) continue;
      const place = placeOf(note);
      if (!places.has(place)) places.set(place, new Map());
      addTo(places.get(place)!, note.voice === inner, note);
    }
    for (const [place, sides] of places) {
      const [inner, outer] = [sides.get(true), sides.get(false)];
      if (inner && outer && this.#nearness(inner) < this.#nearness(outer)) this.#crossed.add(place);
    }
  }
}

function addTo<K>(heights: Map<K, Height>, name: K, { key }: Note): void {
  const own = heights.get(name);
  if (own === undefined) heights.set(name, { sum: key, count: 1 });
  else {
    own.sum += key;
    own.count += 1;
  }
}

function placeOf({ onset, staff }: Note): string {
  return `${onset.num}/${onset.den} ${staff}`;
}

function opposite(placement: Placement): Placement {
  return placement === 'above' ? 'below' : 'above';
}
