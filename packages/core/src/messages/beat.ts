import { checkBeat, checkLanguage } from '../options/allowed.js';
import type { Language } from '../options/options.js';

/** Parts of a beat that have a sign of their own. */
const PARTS: Readonly<Record<string, string>> = {
  '0.250': '¼',
  '0.333': '⅓',
  '0.500': '½',
  '0.667': '⅔',
  '0.750': '¾',
};

/**
 * A beat for people: `3`, `2½`, `1.833` or, where the language writes so, `1,833`.
 *
 * @param beat from 1
 */
export function beatText(beat: number, language: Language = 'en'): string {
  checkBeat(beat);
  checkLanguage(language);
  const rounded = Math.round(beat * 1000) / 1000;
  const whole = Math.floor(rounded);
  const sign = PARTS[(rounded - whole).toFixed(3)];
  if (sign !== undefined) return `${whole}${sign}`;
  return language === 'en' ? `${rounded}` : `${rounded}`.replace('.', ',');
}
