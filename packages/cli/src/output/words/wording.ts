import type { AnnotateOptions } from '@handline/core';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { Counted, SummaryWords } from './words.js';

export type Language = NonNullable<AnnotateOptions['language']>;

export const SUMMARY_WORDS: Readonly<Record<Language, SummaryWords>> = {
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

export function counted(
  [one, several]: Counted,
  count: number,
  more: Parameters<typeof fill>[1] = {},
): string {
  return fill(count === 1 ? one : several, { ...more, count });
}
