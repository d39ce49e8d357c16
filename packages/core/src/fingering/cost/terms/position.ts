import { SEMITONE_WIDTH, WHITE_WIDTH } from '../../../keyboard/key-plan.js';
import type { Finger } from '../../../score/model.js';
import { onlyStruck } from '../../view/struck.js';
import type { SliceView } from '../../view/view.js';
import { blocksOf } from './blocks.js';
import type { Sink, Term, TripleCount } from './term.js';

/** Semitones by which a finger reaches to either side of its place without the hand moving: from memory. */
const EASE = 1.5;
/** Semitones from one finger's key to the next one's in a hand at rest over white keys. */
const FINGER_STEP = WHITE_WIDTH / SEMITONE_WIDTH;
/** Semitones that a hand in one place covers. */
export const COVERED = 12;

/** Features, of a line of single keys; the same again beside a held key. */
export const TURNING = 0;
const ONWARD = 1;
/** A key that returns gets another finger; a finger that returns gets another key. */
export const RETURNING_KEY = 2;
export const RETURNING_FINGER = 3;
export const BESIDE_HELD = 4;

/**
 * The hand's place from one note to the next but one, whatever the finger between them reaches for: a key that the hand
 * covers belongs to the finger above it (common practice). Semitones by which the hand has left its place where the line
 * turns and where it goes on; a key that returns under another finger; a finger that returns to another key.
 */
export const position: Term = {
  name: 'position',
  blocks: blocksOf({
    place: { 'alone, beside a held key': 2, 'turning, onward, returning key, returning finger': BESIDE_HELD },
  }),
  triple(first, second, third) {
    return new Position(first, second, third);
  },
};

class Position implements TripleCount {
  readonly #to: number;
  readonly #turns: boolean;
  readonly #base: number;
  readonly #keys: readonly number[];
  readonly #key: number;
  readonly #only: number;

  constructor(first: SliceView, second: SliceView, third: SliceView) {
    const middle = onlyStruck(second);
    const again = second.repeats || third.repeats;
    this.#to = second.fresh || third.fresh || middle < 0 || again ? -1 : onlyStruck(third);
    this.#only = onlyStruck(first);
    this.#keys = first.keys;
    this.#key = third.keys[this.#to] ?? 0;
    const a = first.keys[this.#only] ?? 0;
    const b = second.keys[middle] ?? 0;
    this.#turns = this.#only < 0 || (b - a) * (this.#key - b) < 0;
    this.#base = second.keys.length > 1 && third.keys.length > 1 ? BESIDE_HELD : 0;
  }

  count(a: readonly Finger[], _b: readonly Finger[], c: readonly Finger[], sink: Sink): void {
    if (this.#to < 0) return;
    const is = c[this.#to]!;
    const base = this.#base;
    if (this.#only >= 0) {
      const was = a[this.#only]!;
      const moved = Math.abs(this.#key - this.#keys[this.#only]! - (is - was) * FINGER_STEP);
      if (moved > EASE) sink.add(base + (this.#turns ? TURNING : ONWARD), moved - EASE);
    }
    if (base === 0 && this.#only < 0) return;
    for (let at = 0; at < a.length; at++) {
      const interval = Math.abs(this.#key - this.#keys[at]!);
      if (interval === 0) {
        if (a[at] !== is) sink.add(base + RETURNING_KEY, 1);
      } else if (a[at] === is && this.#turns && interval < COVERED) sink.add(base + RETURNING_FINGER, 1);
    }
  }
}
