import { pitchClass } from '../keyboard/key-plan.js';
import type { Ornament, Part } from '../score/model.js';
import type { Line, Slice } from './line.js';

/** A key under an ornament, and the neighbouring keys that it is played with. */
export interface Ornamented {
  /** MIDI number of the written key. */
  readonly key: number;
  /** Auxiliary keys: the neighbours, each played in turn with `key`. */
  readonly auxiliaries: readonly number[];
  /** True where the two alternate for the whole length of the note, as in a trill. */
  readonly lasting: boolean;
}

/** Ornaments of a line by slice, and the slices that end a tremolo between two slices. */
export interface Ornaments {
  /** Ornamented keys, by index of the slice. */
  readonly keys: ReadonlyMap<number, readonly Ornamented[]>;
  /** Indices of the slices that end a tremolo between two slices. */
  readonly tremolos: ReadonlySet<number>;
}

/** Neighbours that an ornament is played with, 1 the upper, -1 the lower (common practice). */
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
      if (!hasOrnament(notes, part)) continue;
      for (const ornament of new Set(notes.flatMap((note) => part.notes[note]!.ornaments))) {
        if (ornament === 'tremolo-stop') {
          const before = line.slices[slice.index - 1];
          if (before && startsTremolo(before, part)) tremolos.add(slice.index);
        }
        if (ornament === 'tremolo' || ornament === 'tremolo-start' || ornament === 'tremolo-stop') continue;
        const auxiliaries = NEIGHBOURS[ornament].map((side) => scale.neighbour(key, side, slice.measure));
        const own = keys.get(slice.index) ?? [];
        own.push({ key, auxiliaries, lasting: ornament === 'trill-mark' });
        keys.set(slice.index, own);
      }
    }
  }
  return keys.size > 0 || tremolos.size > 0 ? { keys, tremolos } : undefined;
}

function hasOrnament(notes: readonly number[], part: Part): boolean {
  for (const note of notes) if (part.notes[note]!.ornaments.length > 0) return true;
  return false;
}

function startsTremolo({ struck }: Slice, part: Part): boolean {
  return struck.some(({ notes }) =>
    notes.some((note) => part.notes[note]!.ornaments.includes('tremolo-start')),
  );
}

/** How often each pitch class occurs around a measure; counted on demand. */
class LocalScale {
  #byMeasure: Map<number, number[]> | undefined;

  constructor(private readonly part: Part) {}

  /** @param side 1 for the upper neighbour, -1 for the lower */
  neighbour(key: number, side: 1 | -1, measure: number): number {
    const [near, far] = [key + side, key + 2 * side];
    const [nearer, farther] = [this.#count(near, measure), this.#count(far, measure)];
    if (nearer !== farther) return nearer > farther ? near : far;
    return side > 0 ? far : near;
  }

  #count(key: number, measure: number): number {
    if (!this.#byMeasure) {
      this.#byMeasure = new Map();
      for (const note of this.part.notes) {
        const counts = this.#byMeasure.get(note.measure) ?? new Array<number>(12).fill(0);
        counts[pitchClass(note.key)]! += 1;
        this.#byMeasure.set(note.measure, counts);
      }
    }
    let sum = 0;
    for (let at = measure - 1; at <= measure + 1; at++)
      sum += this.#byMeasure.get(at)?.[pitchClass(key)] ?? 0;
    return sum;
  }
}
