import type { Slice } from './line.js';

/** Seconds without a key after which the hand may go anywhere: from memory. */
export const FREE_SECONDS = 0.15;

/** True where the hand starts anew: at the line's start, a phrase's start or after time without a key. */
export function startsAnew(slice: Pick<Slice, 'index' | 'phraseStart' | 'free'>): boolean {
  return slice.index === 0 || slice.phraseStart || slice.free >= FREE_SECONDS;
}
