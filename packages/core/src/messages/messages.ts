import { checkLanguage, checkWarning } from '../options/allowed.js';
import type { Language } from '../options/options.js';
import { describe, type PlaceName, type Warning } from '../score/errors.js';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { fill } from './fill.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { MessageWords } from './words.js';

export const MESSAGES: Readonly<Record<Language, MessageWords>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

/** A message, and in how many places it holds where there are several; its place is the first. */
export function inPlaces(message: string, count: number, { places }: MessageWords): string {
  return count === 1 ? message : message + fill(places, { count });
}

/**
 * A warning as one line with its place: `score.musicxml: Takt 12, Zeile 340: ...`.
 *
 * @param language that of the place; the message is in the one that `annotate` was given
 */
export function warningText(warning: Pick<Warning, 'message' | 'place'>, language: Language = 'en'): string {
  checkWarning(warning);
  checkLanguage(language);
  const { message, place } = warning;
  const words = MESSAGES[language].place;
  return describe(message, place, (name: PlaceName, value) =>
    fill(words[name], { name: value, number: value }),
  );
}
