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

/** Indices of the items that have the same number; those that have none are left out. */
export function groupBy<T>(
  items: readonly T[],
  numberOf: (item: T, at: number) => number | undefined,
): Iterable<readonly number[]> {
  const groups = new Map<number, number[]>();
  for (let at = 0; at < items.length; at++) {
    const number = numberOf(items[at]!, at);
    if (number === undefined) continue;
    const group = groups.get(number);
    if (group) group.push(at);
    else groups.set(number, [at]);
  }
  return groups.values();
}
