/** More than any number given out by `Numbers`, so that two of them fit into one exact number. */
const MANY = 2 ** 26;

/** Numbers things from 1: equal things have equal numbers. */
export class Numbers {
  readonly #known = new Map<string | number, number>();

  of(thing: string | number): number {
    let number = this.#known.get(thing);
    if (number === undefined) {
      number = this.#known.size + 1;
      this.#known.set(thing, number);
    }
    return number;
  }

  ofTwo(first: number, second: number): number {
    return this.of(first * MANY + second);
  }
}

/** Stands for what has no number. */
export const NONE = 0;

/** Indices that have the same number; those that have `NONE` are left out. */
export function groupsOf(numbers: readonly number[]): Iterable<readonly number[]> {
  const groups = new Map<number, number[]>();
  for (let at = 0; at < numbers.length; at++) {
    const number = numbers[at]!;
    if (number === NONE) continue;
    const group = groups.get(number);
    if (group) group.push(at);
    else groups.set(number, [at]);
  }
  return groups.values();
}
