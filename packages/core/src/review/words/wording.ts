import { LANGUAGES } from '../../cues/wording.js';
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
export function movementNames(language: Language): Readonly<Record<Kind, string>> {
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

/** Parts of a beat that have a sign of their own. */
const PARTS: Readonly<Record<string, string>> = {
  '0.25': '¼',
  '0.333': '⅓',
  '0.5': '½',
  '0.667': '⅔',
  '0.75': '¾',
};

/** A beat for people: `3`, `2½`, `1.833` or, where the language writes so, `1,833`. */
export function beatText(beat: number, language: Language): string {
  const whole = Math.floor(beat);
  const part = Math.round((beat - whole) * 1000) / 1000;
  const sign = PARTS[`${part}`];
  if (sign !== undefined) return `${whole}${sign}`;
  return language === 'en' ? `${beat}` : `${beat}`.replace('.', ',');
}
