import type { Ornament, Part } from '../score/model.js';
import type { Line } from './line.js';

/** A key that is played under an ornament, and the neighbouring keys that it is played with. */
export interface Ornamented {
  readonly key: number;
  /** Neighbouring keys, each to be played in turn with `key`. */
  readonly auxiliaries: readonly number[];
  /** True where the two alternate for the whole length of the note, as in a trill. */
  readonly lasting: boolean;
}

/** Ornaments of a line by slice, and the slices that end a tremolo between two of them. */
export interface Ornaments {
  readonly keys: ReadonlyMap<number, readonly Ornamented[]>;
  readonly tremolos: ReadonlySet<number>;
}

/** Which neighbours an ornament takes in: the mordent the lower one, its inversion the upper, turns both. */
const NEIGHBOURS: Readonly<
  Record<Exclude<Ornament, 'tremolo' | 'tremolo-start' | 'tremolo-stop'>, readonly (1 | -1)[]>
> = {
  'trill-mark': [1],
  mordent: [-1],
  'inverted-mordent': [1],
  turn: [1, -1],
  'delayed-turn': [1, -1],
  'inverted-turn': [1, -1],
};

/**
 * The ornaments of a line; undefined where there are none. An auxiliary is the neighbouring key, a semitone or a tone
 * away, that occurs more often (in any octave) in its measure and the measures beside it; where neither does, the tone
 * above and the semitone below (common practice).
 */
export function ornamentsOf(line: Line, part: Part): Ornaments | undefined {
  const scale = new LocalScale(part);
  const keys = new Map<number, Ornamented[]>();
  const tremolos = new Set<number>();
  for (const slice of line.slices) {
    for (const { key, notes } of slice.struck) {
      if (arePlain(notes, part)) continue;
      for (const ornament of new Set(notes.flatMap((note) => part.notes[note]!.ornaments))) {
        if (ornament === 'tremolo-stop') {
          const before = line.slices[slice.index - 1];
          if (before && starts(before.struck, part)) tremolos.add(slice.index);
        }
        if (ornament === 'tremolo' || ornament === 'tremolo-start' || ornament === 'tremolo-stop') continue;
        const auxiliaries = NEIGHBOURS[ornament].map((way) => scale.neighbour(key, way, slice.measure));
        const own = keys.get(slice.index) ?? [];
        own.push({ key, auxiliaries, lasting: ornament === 'trill-mark' });
        keys.set(slice.index, own);
      }
    }
  }
  return keys.size > 0 || tremolos.size > 0 ? { keys, tremolos } : undefined;
}

function arePlain(notes: readonly number[], part: Part): boolean {
  for (const note of notes) if (part.notes[note]!.ornaments.length > 0) return false;
  return true;
}

function starts(struck: Line['slices'][number]['struck'], part: Part): boolean {
  return struck.some(({ notes }) =>
    notes.some((note) => part.notes[note]!.ornaments.includes('tremolo-start')),
  );
}

/** How often each key class occurs around a measure; counted on demand. */
class LocalScale {
  #byMeasure: Map<number, number[]> | undefined;

  constructor(private readonly part: Part) {}

  neighbour(key: number, way: 1 | -1, measure: number): number {
    const [near, far] = [key + way, key + 2 * way];
    const [nearer, farther] = [this.#count(near, measure), this.#count(far, measure)];
    if (nearer !== farther) return nearer > farther ? near : far;
    return way > 0 ? far : near;
  }

  #count(key: number, measure: number): number {
    if (!this.#byMeasure) {
      this.#byMeasure = new Map();
      for (const note of this.part.notes) {
        const counts = this.#byMeasure.get(note.measure) ?? new Array<number>(12).fill(0);
        counts[note.key % 12]! += 1;
        this.#byMeasure.set(note.measure, counts);
      }
    }
    let sum = 0;
    for (let at = measure - 1; at <= measure + 1; at++) sum += this.#byMeasure.get(at)?.[key % 12] ?? 0;
    return sum;
  }
}
