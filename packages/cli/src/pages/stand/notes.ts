import type { NoteReport, Report, SliceReport } from '@handline/core';
import type { Digits } from './state.js';
import type { ToldLine } from './workers/shown.js';

/** A key of a slice of a line. */
export interface Place {
  readonly line: number;
  readonly slice: number;
  readonly key: number;
}

/** Whose digit stands at a note. */
export type Whose = 'yours' | 'given' | 'ours' | 'none';

/** A key that is struck, with its note heads. */
export interface Struck {
  readonly place: Place;
  readonly midi: number;
  /** 7 x octave + step as written. */
  readonly step: number | undefined;
  readonly finger: number | null;
  readonly whose: Whose;
  /** Note heads, as the music has them. */
  readonly ids: readonly string[];
  /** Those that a digit of the user's goes to: one, and those that print a digit of the score's. */
  readonly heads: readonly string[];
  readonly slice: SliceReport;
  readonly hand: 'right' | 'left';
  /** Name of the part, where it needs one. */
  readonly partName: string | undefined;
}

/** The notes of a marked score, and the way from one to the next. */
export class Notes {
  readonly #lines: readonly ToldLine[];
  readonly #report: Report;
  readonly #digits: Digits;
  readonly #places = new Map<string, Place>();

  constructor(lines: readonly ToldLine[], report: Report, digits: Digits) {
    this.#lines = lines;
    this.#report = report;
    this.#digits = digits;
    lines.forEach(({ ids }, line) => {
      ids.forEach((keys, slice) => {
        keys.forEach((own, key) => {
          for (const id of own) this.#places.set(id, { line, slice, key });
        });
      });
    });
  }

  placeOf(id: string): Place | undefined {
    return this.#places.get(id);
  }

  get first(): Place | undefined {
    return this.#lines.length === 0 ? undefined : { line: 0, slice: 0, key: 0 };
  }

  at(place: Place): Struck | undefined {
    const { line, slice, key } = place;
    const told = this.#lines[line];
    const report = this.#report.lines[line]?.slices[slice];
    const ids = told?.ids[slice]?.[key];
    if (!told || !report || !ids) return undefined;
    const notes = this.#headsOf(report, told.ids[slice]!, key);
    const heads = ids.filter((_, nth) => nth === 0 || notes[nth]!.digit === 'given');
    const yours = ids.some((id) => this.#digits.has(id));
    return {
      place,
      midi: report.keys[key]!,
      step: told.steps[slice]![key],
      finger: report.fingers[key]!,
      whose: yours ? 'yours' : (notes.find(({ digit }) => digit === 'given') ?? notes[0]!).digit,
      ids,
      heads,
      slice: report,
      hand: told.hand,
      partName: told.partName,
    };
  }

  /** Along the hand; undefined at its ends. */
  along({ line, slice }: Place, by: 1 | -1): Place | undefined {
    const key = 0;
    return this.at({ line, slice: slice + by, key }) ? { line, slice: slice + by, key } : undefined;
  }

  /** To the next higher or lower key of the chord, then to the nearest note of the other hand. */
  across({ line, slice, key }: Place, by: 1 | -1): Place | undefined {
    if (this.at({ line, slice, key: key + by })) return { line, slice, key: key + by };
    const other = line - by;
    const slices = this.#report.lines[other]?.slices;
    if (!slices) return undefined;
    const { measureIndex, beat } = this.#report.lines[line]!.slices[slice]!;
    const here = measureIndex * 1000 + beat;
    let nearest = 0;
    const off = (nth: number) => Math.abs(slices[nth]!.measureIndex * 1000 + slices[nth]!.beat - here);
    for (let nth = 1; nth < slices.length; nth++) if (off(nth) < off(nearest)) nearest = nth;
    return { line: other, slice: nearest, key: by === 1 ? 0 : slices[nearest]!.keys.length - 1 };
  }

  /** Offsets of the note heads in the score that was marked. */
  offsets(): Map<string, number> {
    const offsets = new Map<string, number>();
    this.#lines.forEach(({ ids }, line) => {
      ids.forEach((keys, slice) => {
        const { notes } = this.#report.lines[line]!.slices[slice]!;
        keys.flat().forEach((id, nth) => {
          offsets.set(id, notes[nth]!.offset);
        });
      });
    });
    return offsets;
  }

  /** Every struck key. */
  *all(): Generator<Struck> {
    for (let line = 0; line < this.#lines.length; line++) {
      const { ids } = this.#lines[line]!;
      for (let slice = 0; slice < ids.length; slice++) {
        for (let key = 0; key < ids[slice]!.length; key++) yield this.at({ line, slice, key })!;
      }
    }
  }

  /** The report lists the heads of a slice key by key. */
  #headsOf({ notes }: SliceReport, ids: readonly (readonly string[])[], key: number): readonly NoteReport[] {
    let from = 0;
    for (let nth = 0; nth < key; nth++) from += ids[nth]!.length;
    return notes.slice(from, from + ids[key]!.length);
  }
}
