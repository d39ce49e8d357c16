/** A value under construction: the same fields, writable. */
export type Draft<T> = { -readonly [K in keyof T]: T[K] };
