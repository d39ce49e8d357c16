/** What is done in any order and told in the order of the jobs. */
export class InOrder<T> {
  /** Done before an earlier one. */
  readonly #waiting = new Map<number, T>();
  #next = 0;

  /** Everything that can be told now. @param place of the job, from 0 */
  add(place: number, item: T): T[] {
    this.#waiting.set(place, item);
    const ready: T[] = [];
    for (let next = this.#waiting.get(this.#next); next !== undefined; next = this.#waiting.get(this.#next)) {
      this.#waiting.delete(this.#next);
      this.#next += 1;
      ready.push(next);
    }
    return ready;
  }
}
