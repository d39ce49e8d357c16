import type { Head } from '#core/musicxml/marks/record/heads.js';
import type { HeadRecord } from '#core/musicxml/marks/record/token.js';
import type { XmlElement } from '#core/musicxml/xml/tree.js';

/** A note head by its key, with the digit that it carries. */
export interface TestHead extends Head {
  readonly digit: string;
}
export const says = (head: Head, text: string): boolean => (head as TestHead).digit === text;

/** `c3 d e5`: pitch classes from c to b, with a digit where there is one; `x` stands for c sharp. */
const PITCHES: Readonly<Record<string, number>> = { c: 0, x: 1, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };
const parsed = (words: string) =>
  words
    .split(' ')
    .filter((word) => word !== '')
    .map((word) => ({ pitch: PITCHES[word[0]!]!, digit: word.slice(1) }));
export const headsOf = (words: string, up = 0): TestHead[] =>
  parsed(words).map(({ pitch, digit }, tick) => ({
    measure: 0,
    tick,
    grace: false,
    element: {} as XmlElement,
    key: 60 + pitch + up,
    digit,
  }));
export const recordsOf = (words: string): HeadRecord[] =>
  parsed(words).map(({ pitch, digit }) => ({ pitch, written: digit === '' ? undefined : digit }));
