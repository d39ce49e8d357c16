/** A thing that is still being put together. */
export type Draft<T> = { -readonly [K in keyof T]: T[K] };
