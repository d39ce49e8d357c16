import type { Line, Slice } from '#core/hands/line.js';
import type { Finger } from '#core/score/model.js';

/*
 * The plain five-finger rule of sparse digits, stated once more from its description to judge the library's own reader.
 */

type Read = readonly (Finger | null)[];

interface Placed {
  readonly key: number;
  readonly finger: Finger;
}

/** Fingers further: none on the same key, one a second away, two a third, three a fourth, four a fifth or more. */
function further(semitones: number): number {
  if (semitones === 0) return 0;
  if (semitones <= 2) return 1;
  if (semitones <= 4) return 2;
  return semitones <= 6 ? 3 : 4;
}

/** From the nearest key, of two from the lower. */
function fromNearest(key: number, known: readonly Placed[]): Finger | null {
  const [near] = [...known].sort((a, b) => Math.abs(a.key - key) - Math.abs(b.key - key) || a.key - b.key);
  if (near === undefined) return null;
  const finger = near.finger + Math.sign(key - near.key) * further(Math.abs(key - near.key));
  return finger >= 1 && finger <= 5 ? (finger as Finger) : null;
}

/** Keys as the right hand sees them, ascending, with their index in the slice. */
function ascending({ struck }: Slice, left: boolean): readonly { key: number; nth: number }[] {
  return struck.map(({ key }, nth) => ({ key: left ? 124 - key : key, nth })).sort((a, b) => a.key - b.key);
}

/** Someone who plays what is printed, slice by slice. */
export class PlainReader {
  /** The last key of every finger in this position. */
  #position: readonly Placed[] = [];
  /** Keys just played or still held. */
  #last: readonly Placed[] = [];
  /** Fingers of the slice before from the lowest key up; undefined where one of them is not known. */
  #chord: readonly Finger[] | undefined;
  readonly #left: boolean;

  constructor(line: Line) {
    this.#left = line.hand === 'left';
  }

  read(slice: Slice, printed: Read): Read {
    const keys = ascending(slice, this.#left);
    const held = this.#held(slice);
    const guesses = this.#guesses(slice, printed);
    const read = new Array<Finger | null>(keys.length).fill(null);
    keys.forEach(({ nth }, at) => {
      const finger = guesses[at]!;
      const given = printed[nth] ?? null;
      if (given !== null) read[nth] = given;
      else if (finger !== null) {
        const inOrder = guesses.every((other, place) => {
          if (other === null || place === at) return true;
          return place < at ? other < finger : other > finger;
        });
        if (inOrder && !held.some((own) => own.finger === finger)) read[nth] = finger;
      }
    });
    return read;
  }

  /** @param taken fingers that take a key over while it is held */
  play(slice: Slice, printed: Read, taken: Read = []): Read {
    const read = this.read(slice, printed);
    const unprinted = this.read(slice, []);
    const surprised = printed.some((finger, nth) => finger !== null && finger !== unprinted[nth]);
    const held = this.#held(slice);
    const keys = ascending(slice, this.#left);
    const struck = keys.flatMap(({ key, nth }): Placed[] => {
      const finger = taken[nth] ?? read[nth];
      return finger ? [{ key, finger }] : [];
    });
    const fresh = surprised || slice.phraseStart;
    let position = fresh ? [] : this.#position;
    // A finger has one key, the last that it took, and a key one finger.
    for (const own of fresh ? [...held, ...struck] : struck) {
      position = [...position.filter(({ key, finger }) => key !== own.key && finger !== own.finger), own];
    }
    this.#position = position;
    this.#last = [...struck, ...held];
    const fingers = keys.map(({ nth }) => read[nth]!);
    this.#chord = fingers.includes(null as never) ? undefined : (fingers as Finger[]);
    return read;
  }

  #held({ held }: Slice): readonly Placed[] {
    return this.#last.filter(({ key }) => held.some((own) => (this.#left ? 124 - own.key : own.key) === key));
  }

  #guesses(slice: Slice, printed: Read): readonly (Finger | null)[] {
    const keys = ascending(slice, this.#left);
    const digits = keys.flatMap(({ key, nth }): Placed[] =>
      printed[nth] ? [{ key, finger: printed[nth] }] : [],
    );
    if (digits.length > 0) return keys.map(({ key, nth }) => printed[nth] ?? fromNearest(key, digits));
    if (slice.phraseStart) return keys.map(() => null);
    const own = keys.map(({ key }) => this.#position.find((place) => place.key === key)?.finger ?? null);
    if (!own.includes(null)) return own;
    if (keys.length > 1 && this.#chord?.length === keys.length) return this.#chord;
    return keys.map(({ key }, at) => own[at] ?? fromNearest(key, this.#last));
  }
}
