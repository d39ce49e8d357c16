import { LANGUAGES } from '../../cues/wording.js';
import { type Spelling, spellingFor } from '../../keyboard/key-names.js';
import type { Crossing } from '../../motion/plan.js';
import type { Language } from '../../options/options.js';
import type { Finger, Hand } from '../../score/model.js';
import { german } from './de.js';
import { english } from './en.js';
import { spanish } from './es.js';
import { french } from './fr.js';
import { italian } from './it.js';
import type { PictureWords } from './texts.js';

const PICTURE_WORDS: Readonly<Record<Language, PictureWords>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

export function pictureWords(language: Language): PictureWords {
  return PICTURE_WORDS[language];
}

/** A text with its `{...}` filled in. */
export function fill(text: string, parts: Readonly<Record<string, string | number>>): string {
  return text.replaceAll(/\{(\w+)\}/g, (_, name: string) => `${parts[name]}`);
}

/** Letters of a part's name that have room beside a band. */
const MOST_LETTERS = 20;

/** The trade's usual mark for a hand, such as `r.h.`, with what fits of the name of its part. */
export function handMark(language: Language, hand: Hand, part = ''): string {
  const letters = [...part];
  const cut = [...letters.slice(0, MOST_LETTERS / 2), '…', ...letters.slice(1 - MOST_LETTERS / 2)];
  const name = letters.length > MOST_LETTERS ? cut.join('') : part;
  return ofPart(LANGUAGES[language].hands[hand], name);
}

/** `right hand`, with the name of its part. */
export function handWord(language: Language, hand: Hand, part = ''): string {
  return ofPart(PICTURE_WORDS[language].hands[hand], part);
}

function ofPart(hand: string, part: string): string {
  return part === '' ? hand : `${part}, ${hand}`;
}

export function keyWord(language: Language, key: number, written?: Spelling): string {
  const { step, alter } = spellingFor(key, written);
  return LANGUAGES[language].reasons.noteName(step, alter);
}

export function fingerWord(language: Language, finger: Finger): string {
  return finger === 1 ? PICTURE_WORDS[language].thumb : `${finger}`;
}

const MEANINGS = {
  'thumb-passing': 'thumb-passes',
  'finger-over': 'over-thumb',
  'hand-over': 'hand-over',
  'hand-under': 'hand-under',
} as const;

/** The words of the directions of depth, as in the cues. */
export function depthWord(language: Language, direction: 'in' | 'out'): string {
  return LANGUAGES[language].cues[direction];
}

/** What a crossing asks of the player. */
export function crossingWord(language: Language, { kind }: Crossing): string {
  return LANGUAGES[language].meanings[MEANINGS[kind]];
}
