import { checkBeat, checkLanguage } from '../options/allowed.js';
import type { Language } from '../options/options.js';

/** Parts of a beat that have a sign of their own. */
const PARTS: Readonly<Record<string, string>> = {
  '0.25': '¼',
  '0.333': '⅓',
  '0.5': '½',
  '0.667': '⅔',
  '0.75': '¾',
};

/**
 * A beat for people: `3`, `2½`, `1.833` or, where the language writes so, `1,833`.
 *
 * @param beat in quarter notes from 1
 */
export function beatText(beat: number, language: Language = 'en'): string {
  checkBeat(beat);
  checkLanguage(language);
  const whole = Math.floor(beat);
  const part = Math.round((beat - whole) * 1000) / 1000;
  const sign = PARTS[`${part}`];
  if (sign !== undefined) return `${whole}${sign}`;
  return language === 'en' ? `${beat}` : `${beat}`.replace('.', ',');
}
