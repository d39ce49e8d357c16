import type { Clef, Note, Part } from '../../../score/model.js';
import { clefOf } from '../../read/elements/attributes.js';
import type { XmlElement } from '../../xml/tree.js';
import type { Spacing } from './spacing.js';

type Side = 'above' | 'below';

/** Steps of the staff, half a staff space each, that stems, heads and digits reach beyond a note: as verovio draws them. */
const STEM = 7;
const HEAD = 1;
const DIGIT = 3;
/** From the middle line of a staff to its outer lines. */
const TO_EDGE = 4;

/** The note that a clef names, as a diatonic place: 7 x octave + step. */
const NAMED: Readonly<Record<string, number>> = { G: 32, F: 24, C: 28 };
const LINE_STEPS = 2;
const MIDDLE_LINE = 3;

interface Extent {
  readonly place: number;
  readonly steps: number;
}

/** A staff of a part, with the elements of the part's notes and measures. */
export interface Staff {
  readonly part: Part;
  readonly staff: number;
  readonly elements: readonly XmlElement[];
  readonly measures: readonly XmlElement[];
}

/** How far the notes of one staff reach beyond it on one side, in steps from its outer line, by their places. */
export class Extents {
  readonly #extents: Extent[];

  /** @param withDigit ids of the notes that have a digit on this side */
  constructor(
    { part, staff, elements, measures }: Staff,
    side: Side,
    withDigit: ReadonlySet<number>,
    spacing: Spacing,
  ) {
    const notes = part.notes.filter((note) => note.staff === staff);
    const voices = voicesByMeasure(notes);
    const clefs = clefChanges(measures, staff);
    let middle = middleOf(part.clefs[staff - 1] ?? { sign: 'G', line: 2 });
    let next = 0;
    this.#extents = notes.map((note) => {
      for (; next < clefs.length && clefs[next]!.at < note.span.start; next++) middle = clefs[next]!.middle;
      const above = note.diatonic - middle;
      const outwards = side === 'above' ? above : -above;
      const stem = stemOf(note, elements[note.id]!, above, voices.get(note.measure)!);
      const steps = Math.max(0, outwards + (stem === side ? Math.max(STEM, -outwards) : HEAD) - TO_EDGE);
      return { place: spacing.placeOf(note), steps: steps + (withDigit.has(note.id) ? DIGIT : 0) };
    });
    this.#extents.sort((a, b) => a.place - b.place);
  }

  /** The furthest from one place to another. */
  between(from: number, to: number): number {
    let low = 0;
    let high = this.#extents.length;
    while (low < high) {
      const half = (low + high) >> 1;
      if (this.#extents[half]!.place < from) low = half + 1;
      else high = half;
    }
    let most = 0;
    for (let at = low; at < this.#extents.length && this.#extents[at]!.place <= to; at++)
      most = Math.max(most, this.#extents[at]!.steps);
    return most;
  }
}

/** The side of a note to which its stem goes: what the file says, else that of its voice, else towards the middle line. */
function stemOf({ voice }: Note, element: XmlElement, above: number, voices: readonly string[]): Side {
  const stem = element.textOf('stem');
  if (stem === 'up' || stem === 'down') return stem === 'up' ? 'above' : 'below';
  if (voices.length > 1) return voices.indexOf(voice) % 2 === 0 ? 'above' : 'below';
  return above < 0 ? 'above' : 'below';
}

function voicesByMeasure(notes: readonly Note[]): ReadonlyMap<number, readonly string[]> {
  const voices = new Map<number, string[]>();
  for (const { measure, voice } of notes) {
    const own = voices.get(measure) ?? [];
    voices.set(measure, own);
    if (!own.includes(voice)) own.push(voice);
  }
  return voices;
}

function clefChanges(measures: readonly XmlElement[], staff: number): { at: number; middle: number }[] {
  const changes: { at: number; middle: number }[] = [];
  for (const { children } of measures) {
    for (const attributes of children) {
      if (attributes.name !== 'attributes') continue;
      for (const clef of attributes.all('clef')) {
        if (Number(clef.attribute('number') ?? 1) !== staff) continue;
        changes.push({ at: attributes.span.start, middle: middleOf(clefOf(clef)) });
      }
    }
  }
  return changes;
}

function middleOf({ sign, line }: Clef): number {
  return (NAMED[sign] ?? NAMED.G!) + LINE_STEPS * (MIDDLE_LINE - line);
}
