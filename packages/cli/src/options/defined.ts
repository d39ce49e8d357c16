type Defined<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

/** The object without the entries that are undefined: an option left out is not an option set to nothing. */
export function defined<T extends object>(values: T): Defined<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Defined<T>;
}
