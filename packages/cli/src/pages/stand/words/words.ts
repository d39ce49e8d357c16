import type { Language } from '@handline/core';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { StandWords } from './texts.js';

export const STAND_WORDS: Readonly<Record<Language, StandWords>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

/** Each language in its own words. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = {
  en: 'English',
  de: 'Deutsch',
  fr: 'Français',
  es: 'Español',
  it: 'Italiano',
};

/** Keys of the white notes above C. */
const WHITE = [0, 2, 4, 5, 7, 9, 11];
const SIGNS = ['♭♭', '♭', '', '♯', '♯♯'];

/** `F♯4`: as the score writes it, with the octave that begins at middle C as 4. */
export function keyName({ letters, flatB }: StandWords, midi: number, step: number | undefined): string {
  const own = step ?? stepOf(midi);
  const letter = own % 7;
  const alter = midi - 12 * (Math.floor(own / 7) + 1) - WHITE[letter]!;
  const octave = Math.floor(own / 7);
  if (letter === 6 && alter === -1 && flatB) return `${flatB}${octave}`;
  return `${letters[letter]}${SIGNS[alter + 2] ?? ''}${octave}`;
}

/** The white key, or the one below a black key. */
function stepOf(midi: number): number {
  const octave = Math.floor(midi / 12) - 1;
  return 7 * octave + WHITE.findLastIndex((own) => own <= midi % 12);
}
