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

/** The sum by one set of weights, and that of mechanics alone by another, counted together. */
export class WeightedSums implements Sink {
  sum = 0;
  /** Grows from term to term. */
  mechanics = 0;
  #base = 0;

  /**
   * @param weights mm equivalents by feature, as of `WeightedSum`
   * @param ofMechanics the same, 0 for habits
   */
  constructor(
    private readonly weights: Float64Array,
    private readonly ofMechanics: Float64Array,
  ) {}

  /** @param base index of the first weight of the term that counts from now on, and is summed by itself */
  begin(base: number): void {
    this.#base = base;
    this.sum = 0;
  }

  add(feature: number, value: number): void {
    const at = this.#base + feature;
    this.sum += this.weights[at]! * value;
    this.mechanics += this.ofMechanics[at]! * value;
  }
}
