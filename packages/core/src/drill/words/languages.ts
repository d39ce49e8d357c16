import { LANGUAGES } from '../../cues/wording.js';
import type { Language } from '../../options/options.js';
import type { ChordKind } from '../theory/chords.js';
import type { Pitch } from '../theory/pitch.js';
import { stepOf } from '../theory/pitch.js';
import type { ScaleKind } from '../theory/scales.js';
import type { Tonic } from '../theory/tonic.js';
import { english } from './en.js';
import type { SheetWords } from './words.js';

export const SHEET_WORDS: Readonly<Record<Language, SheetWords>> = {
  en: english,
  de: english,
  fr: english,
  es: english,
  it: english,
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
  // In German a capital letter is that of a major key.
  return text.startsWith('{') ? full : full.charAt(0).toUpperCase() + full.slice(1);
}
