import type { Line, Slice } from '../../hands/line.js';
import { mirrorKey } from '../../keyboard/key-plan.js';
import type { Finger } from '../../score/model.js';

/** Digits in print, by slice: on the struck keys, null where there is none. */
export interface PrintedSlice {
  readonly struck: readonly (Finger | null)[];
  /** Fingers that take a struck key over while it is held, printed after its digit. */
  readonly substitutions?: readonly (Finger | null)[];
}

/** By semitones: how many fingers further an interval reaches in the five-finger position. */
const STEPS = [0, 1, 1, 2, 2, 3, 3, 4] as const;

interface Held {
  readonly key: number;
  readonly finger: Finger;
}

/**
 * A reader of sparse digits who follows the plain five-finger rule, slice by slice, as the right hand sees it:
 *
 * 1. A printed digit is followed. Where it differs from what the reader would have read, and where a phrase begins, the
 *    hand takes a new position; else it stays where it is.
 * 2. A key that a finger of the present position played last is that finger's.
 * 3. Of a chord with as many keys as the chord before, each key has the finger that it had there.
 * 4. Any other key is read from the nearest key just played (in a chord with printed digits: from the nearest of these),
 *    of two from the lower: a second away with the next finger, a third with the one after that, a fourth three fingers
 *    on, a fifth or more four.
 * 5. A key cannot be read where this leads beyond finger 1 or 5, to a finger that holds another key, or to fingers that are
 *    not in the order of their keys.
 */
export class Reader {
  readonly #mirror: (key: number) => number;
  /** Key that each finger played last in this position. */
  #position = new Map<Finger, number>();
  #last: readonly Held[] = [];
  /** Fingers of the slice before, by key from below; empty where one of them could not be read. */
  #chord: readonly Finger[] = [];

  constructor(line: Line) {
    this.#mirror = line.hand === 'left' ? mirrorKey : (key) => key;
  }

  /** Fingers of the struck keys; null where the rule gives none. */
  read(slice: Slice, printed: PrintedSlice['struck']): (Finger | null)[] {
    const order = this.#ascending(slice);
    const keys = order.map(({ key }) => key);
    const given = order.map(({ nth }) => printed[nth] ?? null);
    const busy = this.#held(slice).map(({ finger }) => finger);
    const own = this.#readKeys(keys, given, slice.phraseStart);
    const read = new Array<Finger | null>(keys.length).fill(null);
    own.forEach((finger, at) => {
      if (given[at]) read[order[at]!.nth] = given[at]!;
      else if (finger && !busy.includes(finger) && inOrder(own, at)) read[order[at]!.nth] = finger;
    });
    return read;
  }

  /** Goes on to the next slice, once it is known what was played. */
  follow(slice: Slice, read: readonly (Finger | null)[], printed: PrintedSlice): void {
    const held = this.#held(slice);
    const expected = this.read(slice, []);
    const fresh = printed.struck.some((finger, nth) => finger && finger !== expected[nth]);
    if (fresh || slice.phraseStart) this.#position = new Map(held.map(({ key, finger }) => [finger, key]));
    const struck = this.#ascending(slice).flatMap(({ key, nth }): Held[] => {
      const finger = printed.substitutions?.[nth] ?? read[nth];
      return finger ? [{ key, finger }] : [];
    });
    for (const { key, finger } of struck) this.#place(key, finger);
    this.#last = [...struck, ...held];
    const complete = read.every((finger) => finger !== null);
    this.#chord = complete ? this.#ascending(slice).map(({ nth }) => read[nth]!) : [];
  }

  #place(key: number, finger: Finger): void {
    for (const [other, place] of this.#position) if (place === key) this.#position.delete(other);
    this.#position.set(finger, key);
  }

  #ascending(slice: Slice): { key: number; nth: number }[] {
    return slice.struck
      .map(({ key }, nth) => ({ key: this.#mirror(key), nth }))
      .sort((a, b) => a.key - b.key);
  }

  #held(slice: Slice): readonly Held[] {
    const keys = slice.held.map(({ key }) => this.#mirror(key));
    return this.#last.filter(({ key }) => keys.includes(key));
  }

  #readKeys(
    keys: readonly number[],
    given: readonly (Finger | null)[],
    freshStart: boolean,
  ): readonly (Finger | null)[] {
    const printed = keys.flatMap((key, at): Held[] => (given[at] ? [{ key, finger: given[at] }] : []));
    if (printed.length > 0) return keys.map((key, at) => given[at] ?? byInterval(key, printed));
    if (freshStart) return keys.map(() => null);
    const placed = keys.map((key) => this.#placed(key));
    if (placed.every((finger) => finger !== null)) return placed;
    if (keys.length > 1 && this.#chord.length === keys.length) return this.#chord;
    return keys.map((key, at) => placed[at] ?? byInterval(key, this.#last));
  }

  #placed(key: number): Finger | null {
    for (const [finger, place] of this.#position) if (place === key) return finger;
    return null;
  }
}

function byInterval(key: number, from: readonly Held[]): Finger | null {
  let near: Held | undefined;
  for (const one of from) {
    const [distance, least] = [Math.abs(one.key - key), near ? Math.abs(near.key - key) : Infinity];
    if (distance < least || (distance === least && one.key < near!.key)) near = one;
  }
  if (!near) return null;
  const size = Math.min(Math.abs(key - near.key), STEPS.length - 1);
  const finger = near.finger + Math.sign(key - near.key) * STEPS[size]!;
  return finger >= 1 && finger <= 5 ? (finger as Finger) : null;
}

/** True where the fingers before and after lie on the same sides as their keys. */
function inOrder(fingers: readonly (Finger | null)[], at: number): boolean {
  const own = fingers[at]!;
  return fingers.every(
    (other, nth) => nth === at || other === null || (nth < at ? other < own : other > own),
  );
}

/** The fingers that a reader plays: by slice, by struck key; null where the printed digits leave a key open. */
export function reconstruct(
  line: Line,
  printed: readonly PrintedSlice[],
): readonly (readonly (Finger | null)[])[] {
  const reader = new Reader(line);
  return line.slices.map((slice, at) => {
    const read = reader.read(slice, printed[at]!.struck);
    reader.follow(slice, read, printed[at]!);
    return read;
  });
}
