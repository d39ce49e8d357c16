import { LANGUAGES } from '../../cues/wording.js';
import type { Language } from '../../options/options.js';
import type { ChordKind } from '../theory/chords.js';
import type { Pitch } from '../theory/pitch.js';
import { stepOf } from '../theory/pitch.js';
import type { ScaleKind } from '../theory/scales.js';
import type { Tonic } from '../theory/tonic.js';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { SheetWords } from './words.js';

export const SHEET_WORDS: Readonly<Record<Language, SheetWords>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

export function filled(text: string, parts: Readonly<Record<string, string | number>>): string {
  return text.replaceAll(/\{(\w+)\}/g, (_, name: string) => String(parts[name]!));
}

/** `E flat`, as the language has it. */
export function noteName(pitch: Pitch, language: Language): string {
  return LANGUAGES[language].reasons.noteName(stepOf(pitch), pitch.alter);
}

/** `E flat harmonic minor`, as the language has it, with a capital letter. */
export function keyTitle(
  { step, alter }: Tonic,
  kind: ScaleKind | { readonly chord: ChordKind },
  language: Language,
): string {
  const words = SHEET_WORDS[language];
  const note = LANGUAGES[language].reasons.noteName(step, alter);
  const text = typeof kind === 'string' ? words.scales[kind] : words.chords[kind.chord];
  const full = filled(text, { note, lower: note.toLowerCase() });
  // In German a minor key has a small letter.
  return text.startsWith('{lower}') ? full : full.charAt(0).toUpperCase() + full.slice(1);
}
