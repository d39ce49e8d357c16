import { LANGUAGES } from '../../cues/wording.js';
import type { Language } from '../../options/options.js';
import type { Finger } from '../../score/model.js';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { ReviewWords } from './words.js';

export const REVIEW_WORDS: Readonly<Record<Language, ReviewWords>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

/** Puts what it says in the place of `{name}`. */
export function fill(text: string, parts: Readonly<Record<string, string | number>>): string {
  return text.replaceAll(/\{(\w+)\}/g, (_, name: string) => String(parts[name] ?? ''));
}

/** A finger in words: the thumb by name, the others by digit. */
export function fingerName(finger: Finger, language: Language): string {
  return finger === 1 ? LANGUAGES[language].reasons.thumb : `${finger}`;
}

/** mm for people. */
export function millimetres(mm: number): string {
  return `${Math.round(mm)}`;
}
