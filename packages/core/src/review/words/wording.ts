import { LANGUAGES } from '../../cues/wording.js';
import { checkLanguage } from '../../options/allowed.js';
import type { Language } from '../../options/options.js';
import type { Finger } from '../../score/model.js';
import type { Kind } from '../measure/kinds.js';
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

/** What the kinds of movement are called in a language. */
export function movementNames(language: Language = 'en'): Readonly<Record<Kind, string>> {
  checkLanguage(language);
  return REVIEW_WORDS[language].kinds;
}

/** A finger in words: the thumb by name, the others by digit. */
export function fingerName(finger: Finger, language: Language): string {
  return finger === 1 ? LANGUAGES[language].reasons.thumb : `${finger}`;
}

/** mm for people. */
export function millimetres(mm: number): string {
  return `${Math.round(mm)}`;
}
