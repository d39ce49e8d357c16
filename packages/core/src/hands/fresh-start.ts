import type { Slice } from './line.js';

/** Seconds without a key after which the hand may go anywhere: from memory. */
const FREE_SECONDS = 0.15;

/**
 * True where the hand is off the keys before an onset and free to move: where a phrase starts, or after time without a
 * key.
 *
 * @param free seconds before the onset during which the hand held no key
 */
export function isFree(free: number, phraseStart: boolean): boolean {
  return phraseStart || free >= FREE_SECONDS;
}

/** Seconds from onset to onset that the hand needs to end a phrase and begin the next one elsewhere: from memory. */
const PHRASE_SECONDS = 0.25;
const ROUNDING = 1e-9;

/**
 * True where the fingers may be chosen anew: the hand is free, and where only a phrase begins, as behind the end of a slur, it
 * has the time to go.
 *
 * @param seconds since the onset before
 */
export function isFreeToGo(free: number, phraseStart: boolean, seconds: number): boolean {
  return isFree(free, phraseStart && seconds >= PHRASE_SECONDS - ROUNDING);
}

/** True where the hand makes a fresh start: it is free, or the line begins. */
export function isFreshStart({
  index,
  free,
  phraseStart,
}: Pick<Slice, 'index' | 'free' | 'phraseStart'>): boolean {
  return index === 0 || isFree(free, phraseStart);
}
