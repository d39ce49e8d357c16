import { checkLanguage, checkWording } from '../options/allowed.js';
import type { Language, Layer } from '../options/options.js';
import { optionError } from '../score/errors.js';
import type { Hand } from '../score/model.js';
import { CUE_KEYS, CUE_LAYERS, type CueKey, type Words } from './keys.js';
import { german } from './words/de.js';
import { english } from './words/en.js';
import { spanish } from './words/es.js';
import { french } from './words/fr.js';
import { italian } from './words/it.js';

export const LANGUAGES: Readonly<Record<Language, Words>> = {
  en: english,
  de: german,
  fr: french,
  es: spanish,
  it: italian,
};

/** Longest line of the legend, in characters: what has room under the last measure (docs/cues.md). */
const LEGEND_LINE = 26;
/** A space that programs keep at the end of a line, and how many of them are as wide as a letter. */
const SPACE = '\u00a0';
const SPACES_A_LETTER = 2;
const MARGIN = 3;
/** Letters that are narrow, and by how much, as a share of a letter. */
const NARROW = /[fijlt.,:;’' ]/gu;
const NARROWER = 0.4;

/**
 * Longest line of a cue, in characters, where a word is no longer: so it fits between the last note of a system and the edge of the page,
 * and verovio sets no cue on another (docs/cues.md; of 29 scores 5 times with 14, once with 11, never with 9).
 */
const CUE_LINE = 9;

/** Between the parts of one cue. */
export const BETWEEN = ', ';

/** As the legend shows the dashes behind a text. */
const DASHES = '– –';

/** Longest text of a user's own cue, in characters: our choice. */
const LONGEST_OWN = 60;

/** Any control character, line breaks included. */
const CONTROL = /\p{Cc}/u;

/**
 * Texts of the cues in a language, single ones replaced by the user's own.
 *
 * @throws HandlineError OPTION for a cue that does not exist, or a text that is empty, too long or of several lines
 */
export function cueWording(language: Language, own: Readonly<Record<string, string>> = {}): Wording {
  const unknown = Object.keys(own).filter((key) => !Object.hasOwn(CUE_LAYERS, key));
  if (unknown.length > 0) {
    throw optionError(
      'wording',
      `no such cue: ${unknown.join(', ')}; the cues are ${CUE_KEYS.join(', ')}`,
      {},
      { given: unknown[0]!, allowed: CUE_KEYS },
    );
  }
  for (const [key, text] of Object.entries(own)) {
    if (typeof text !== 'string' || text.trim() === '' || text.length > LONGEST_OWN || CONTROL.test(text)) {
      throw optionError(
        'wording',
        `the text of ${key} must be one line of 1-${LONGEST_OWN} characters, not ${JSON.stringify(text)}`,
      );
    }
  }
  return { ...LANGUAGES[language].cues, ...own };
}

/** Texts of the cues, by key. */
export type Wording = Readonly<Record<CueKey, string>>;

/** The fuller texts of a language, as far as the user has not chosen words of their own. */
export function fullWording(
  language: Language,
  own: Readonly<Record<string, string>> = {},
): Partial<Wording> {
  return Object.fromEntries(
    Object.entries(LANGUAGES[language].full).filter(([key]) => !Object.hasOwn(own, key)),
  );
}

/**
 * The legend of a score: what the cues of these layers mean, line by line, and the caution.
 *
 * @param used only these cues are explained
 * @param hands the marks of these hands are explained
 * @param dashes the dashes behind texts are explained
 */
export function legendText(
  language: Language,
  layers: readonly Layer[],
  own?: Readonly<Record<string, string>>,
  used: readonly CueKey[] = CUE_KEYS,
  hands: readonly Hand[] = [],
  dashes = false,
): string {
  const wording = cueWording(language, own);
  const { meanings, hands: words, takes, caution } = LANGUAGES[language];
  const lines = CUE_KEYS.filter((key) => used.includes(key) && layers.includes(CUE_LAYERS[key])).map(
    (key) => `${wording[key]}: ${meanings[key]}`,
  );
  if (dashes) lines.push(`${DASHES}: ${LANGUAGES[language].dashes}`);
  for (const hand of hands) lines.push(`${words[hand]}: ${takes[hand]}`);
  const wrapped = [...lines, caution].flatMap((line) => wrap(line, LEGEND_LINE).split('\n'));
  return wrapped.map(toWidth).join('\n');
}

/** All lines about equally wide: programs would set a short one beside what is in the way of those before it. */
function toWidth(line: string): string {
  const narrow = line.match(NARROW)?.length ?? 0;
  const letters = line.length - NARROWER * narrow;
  return line + SPACE.repeat(Math.round(SPACES_A_LETTER * Math.max(0, LEGEND_LINE + MARGIN - letters)));
}

/** One cue as it can stand in print, and what it asks of the player. */
export interface CueMeaning {
  /** The short text, and the fuller one of the first time where there is one. */
  readonly texts: readonly string[];
  /** What the player does. */
  readonly meaning: string;
}

/**
 * What every cue means, in the order of a legend, and last what the dashes behind one mean. Several cues at one place are one text, with `, ` between them.
 *
 * @throws HandlineError OPTION for a bad `wording`
 */
export function cueMeanings(
  language: Language = 'en',
  own: Readonly<Record<string, string>> = {},
): readonly CueMeaning[] {
  checkLanguage(language);
  checkWording(own);
  const wording = cueWording(language, own);
  const full = fullWording(language, own);
  const { meanings, dashes } = LANGUAGES[language];
  const cues = CUE_KEYS.map((key) => ({
    texts: [...new Set([wording[key], full[key] ?? wording[key]])],
    meaning: meanings[key],
  }));
  return [...cues, { texts: [DASHES], meaning: dashes }];
}

/** The trade's usual mark for a hand in a language (common practice). */
export function handWord(language: Language, hand: Hand): string {
  return LANGUAGES[language].hands[hand];
}

/** The usual caution about pain and injury. */
export function cautionText(language: Language = 'en'): string {
  checkLanguage(language);
  return LANGUAGES[language].caution;
}

/** A cue as it is printed: one line for each thing that it asks for, and short lines, so that none is cut. */
export function printedLines(text: string): string {
  return text
    .split(BETWEEN)
    .map((one) => wrap(one, CUE_LINE))
    .join('\n');
}

/**
 * Behind every line of a cue, so that programs set what follows a letter's width apart or on another line. verovio counts any
 * two blanks as two letters, MuseScore only what is before the last one, and plain spaces may be cut off on the way.
 */
const BLANKS = '\u2002\u00a0';

/** The lines of a cue with the blanks that keep its neighbours off. */
export function spacedLines(text: string): string {
  return printedLines(text).replaceAll(/$/gmu, BLANKS);
}

function wrap(text: string, width: number): string {
  return text.replaceAll(new RegExp(`(.{1,${width}})(?: |$)`, 'gu'), '$1\n').trimEnd();
}
