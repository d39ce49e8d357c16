import { toNumber } from '../../../numeric/fraction.js';
import type { Note, Score } from '../../../score/model.js';
import type { XmlElement } from '../../xml/tree.js';

/**
 * Staff spaces from a quarter note to what follows it, before a system is stretched to the page, and how the room of other
 * lengths grows with them: what verovio leaves at least (docs/cues.md). Accidentals, dots and grace notes take more.
 */
const QUARTER = 3.78;
const GROWTH = 0.6;
/** Staff spaces that a barline takes at least. */
const BARLINE = 1;
/** Share of their room that notes have where one of their measure has no type, from which programs guess. */
const GUESSED = 0.4;
/** Quicker than this many quarter notes; and the share of their room that is left to such notes where texts of all layers crowd. */
const QUICK = 0.5;
const CROWDED = 0.3;

/** How far onsets lie apart on a page at least, in staff spaces. */
export class Spacing {
  /** By onset. */
  readonly #places = new Map<number, number>();

  /**
   * @param elements the `<note>` elements, by part and id
   * @param isCrowded whether there are texts of more layers than the usual ones
   */
  constructor({ parts }: Score, elements: readonly (readonly XmlElement[])[], isCrowded: boolean) {
    const measures = new Map<number, number>();
    const guessed = new Set<number>();
    for (const { index, notes } of parts) {
      for (const { id, onset, measure, grace } of notes) {
        if (grace >= 0) continue;
        measures.set(toNumber(onset), measure);
        if (elements[index]![id]!.child('type') === undefined) guessed.add(measure);
      }
    }
    const starts = parts[0]?.measures.map(({ start }) => toNumber(start)) ?? [];
    let place = 0;
    let last: number | undefined;
    for (const onset of [...measures.keys()].sort((a, b) => a - b)) {
      const measure = measures.get(onset)!;
      if (last !== undefined) {
        const before = measures.get(last)!;
        const share = guessed.has(before) || guessed.has(measure) ? GUESSED : 1;
        const barline = Math.max(last, measure > before ? (starts[measure] ?? onset) : onset);
        const room = roomOf(barline - last, isCrowded) + roomOf(onset - barline, isCrowded);
        place += share * room + BARLINE * (measure - before);
      }
      this.#places.set(onset, place);
      last = onset;
    }
  }

  /** From the first onset of the score. */
  placeOf({ onset }: Note): number {
    return this.#places.get(toNumber(onset)) ?? 0;
  }
}

function roomOf(quarters: number, isCrowded: boolean): number {
  if (quarters <= 0) return 0;
  const room = QUARTER * quarters ** GROWTH;
  return isCrowded && quarters < QUICK ? CROWDED * room : room;
}
