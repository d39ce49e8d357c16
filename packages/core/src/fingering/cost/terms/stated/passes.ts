import type { Finger } from '../../../../score/model.js';
import { blocksOf } from '../blocks.js';
import { areSingle, type Sink, type Term, type TripleCount } from '../term.js';

/** Features: the thumb again after one other finger; any pass, which `corrections.ts` charges for usage alone. */
const AGAIN = 0;
export const PASS = 1;
/** mm equivalents, our choice: works held out agree hardly less with it. */
const PRICES = [16, 0] as const;
/** Semitones from one thumb to the next: wider than in a chromatic line, no wider than the hand goes along without a leap. */
const NARROWEST = 3;
const WIDEST = 9;
/** Semitones from which on the hand leaps instead of passing. */
const OCTAVE = 12;

/**
 * Passes in a line of single keys (common practice). The thumb again after one other finger, where the line goes on in
 * one direction: the hand is carried on for every second note, where an arpeggio has one pass an octave and a scale two.
 * And every pass of the thumb or over it. Chromatic lines are left out, where the thumb lies between black keys.
 */
export const passes: Term = {
  name: 'thumb passes',
  blocks: blocksOf({ passes: { 'thumb two notes apart, any pass': 2 } }),
  stated: PRICES,
  triple(first, second, third) {
    if (second.fresh || third.fresh || !areSingle(first, second) || !areSingle(second, third))
      return undefined;
    return new Passes(second.low - first.low, third.low - second.low);
  },
};

class Passes implements TripleCount {
  readonly #again: boolean;
  readonly #chromatic: boolean;

  /** @param one semitones to the second key; `other` from there to the third */
  constructor(
    one: number,
    private readonly other: number,
  ) {
    const semitones = Math.abs(one + other);
    this.#again = one * other > 0 && semitones >= NARROWEST && semitones <= WIDEST;
    this.#chromatic = Math.abs(one) === 1 && Math.abs(other) === 1;
  }

  count(a: readonly Finger[], b: readonly Finger[], c: readonly Finger[], sink: Sink): void {
    if (this.#again && a[0] === 1 && b[0] !== 1 && c[0] === 1) sink.add(AGAIN, 1);
    if (!this.#chromatic && isPass(this.other, b[0]!, c[0]!)) sink.add(PASS, 1);
  }
}

function isPass(semitones: number, from: Finger, to: Finger): boolean {
  if (semitones === 0 || Math.abs(semitones) >= OCTAVE) return false;
  const low = semitones > 0 ? from : to;
  const high = semitones > 0 ? to : from;
  return high === 1 && low !== 1;
}
