import type { HandModel } from './hand.js';

/** Remembers what was made for a hand, as long as the hand is in use. */
export class PerHand<T> {
  readonly #made = new WeakMap<HandModel, T>();

  constructor(private readonly make: (hand: HandModel) => T) {}

  of(hand: HandModel): T {
    const known = this.#made.get(hand);
    if (known !== undefined) return known;
    const made = this.make(hand);
    this.#made.set(hand, made);
    return made;
  }
}
