import { isUpbeat, type Language } from '@handline/core';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { HandoutWords } from './texts.js';

export const HANDOUT_WORDS: Readonly<Record<Language, HandoutWords>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

/** `right hand`, with the name of its part where it needs one. */
export function handText({ hands }: HandoutWords, hand: 'right' | 'left', partName?: string): string {
  return partName === undefined ? hands[hand] : `${partName}, ${hands[hand]}`;
}

/** `Measures 1–4`, `Measure 3`, and with a measure before the first one `Upbeat to measure 4`, `Upbeat`. */
export function measureText(
  { measure, measures, upbeat, upbeatTo }: HandoutWords,
  from: string,
  to = from,
): string {
  if (from === to) return isUpbeat(from) ? upbeat : fill(measure, { from });
  return isUpbeat(from) ? fill(upbeatTo, { to }) : fill(measures, { from, to });
}

/** A text with its `{...}` filled in. */
export function fill(text: string, parts: Readonly<Record<string, string | number>>): string {
  return text.replaceAll(/\{(\w+)\}/g, (_, name: string) => `${parts[name]}`);
}
