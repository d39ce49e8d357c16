/** Slots at the start; a power of two, as it stays. */
const SLOTS = 1 << 8;

/**
 * Numbers pairs of whole numbers below 2 ** 31 from 1: equal pairs have equal numbers. A table of its own, as a map
 * would make an object of every pair that it looks up.
 */
export class PairNumbers {
  #count = 0;
  /** First, second and number of the pair in each slot; number 0 in a free one. */
  #slots = new Int32Array(3 * SLOTS);

  of(first: number, second: number): number {
    const at = this.#find(first, second);
    const known = this.#slots[at + 2]!;
    if (known > 0) return known;
    this.#count += 1;
    this.#fill(at, first, second, this.#count);
    // Half full at most, so that a pair is found near its place.
    if (this.#count * 6 > this.#slots.length) this.#grow();
    return this.#count;
  }

  /** Where a pair stands or would stand. */
  #find(first: number, second: number): number {
    const slots = this.#slots;
    const mask = slots.length / 3 - 1;
    const mixed = Math.imul(Math.imul(first, 0x9e3779b1) ^ second, 0x85ebca6b);
    let slot = (mixed ^ (mixed >>> 15)) & mask;
    for (;;) {
      const at = 3 * slot;
      if (slots[at + 2] === 0 || (slots[at] === first && slots[at + 1] === second)) return at;
      slot = (slot + 1) & mask;
    }
  }

  #fill(at: number, first: number, second: number, number: number): void {
    this.#slots[at] = first;
    this.#slots[at + 1] = second;
    this.#slots[at + 2] = number;
  }

  #grow(): void {
    const old = this.#slots;
    this.#slots = new Int32Array(2 * old.length);
    for (let at = 0; at < old.length; at += 3) {
      const [first, second, number] = [old[at]!, old[at + 1]!, old[at + 2]!];
      if (number > 0) this.#fill(this.#find(first, second), first, second, number);
    }
  }
}
