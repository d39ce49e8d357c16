import type { Sink } from './terms/term.js';

/** Sum of weight x value over the features counted, in mm equivalents. */
export class WeightedSum implements Sink {
  sum = 0;
  #base = 0;

  /** @param weights mm equivalents by feature, those of all terms one after the other */
  constructor(private readonly weights: Float64Array) {}

  /**
   * @param base index of the first weight of the term that counts from now on
   * @param sum to start from
   */
  begin(base: number, sum = 0): void {
    this.#base = base;
    this.sum = sum;
  }

  add(feature: number, value: number): void {
    this.sum += this.weights[this.#base + feature]! * value;
  }
}
