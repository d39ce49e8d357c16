import { readFileSync } from 'node:fs';
import { annotate, clear, HandlineError } from '@handline/core';
import { unzipSync, zipSync } from 'fflate';
import { FIXTURES, TUNES } from '../scores.js';

/** The bytes of each of our tunes. */
export const ORIGINALS: readonly Uint8Array[] = TUNES.map(
  (name) => new Uint8Array(readFileSync(`${FIXTURES}${name}`)),
);

/** Numbers from 0 to below `below`. */
export type Random = (below: number) => number;

/** Reproducible noise: mulberry32 by Tommy Ettinger, 2017, public domain (from memory). */
export function random(seed: number): Random {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let value = Math.imul(state ^ (state >>> 15), state | 1);
    value ^= value + Math.imul(value ^ (value >>> 7), value | 61);
    return Math.floor((((value ^ (value >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

const NUMBERS = [
  'NaN',
  '-1',
  '0',
  '1e308',
  '9'.repeat(300),
  '0.000001',
  '-0',
  '2147483648',
  '',
  'Infinity',
  '99999',
];
const TAG = /<[^>]+>/g;
/** Elements without children, and notes. */
const ELEMENT = /<([a-z][\w-]*)[^<>]*>[^<]*<\/\1>|<[a-z][^<>]*\/>|<note\b[\s\S]*?<\/note>/g;

const pick = <T>(list: readonly T[], next: Random): T => list[next(list.length)] as T;

function latin(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('latin1');
}

function without(text: string, { 0: found, index }: RegExpExecArray): string {
  return text.slice(0, index) + text.slice(index + found.length);
}

/** Changes of the text, a byte a character; whatever the encoding, the result is bytes again. */
const TEXT_MUTATIONS: readonly ((text: string, next: Random) => string)[] = [
  function deleteTag(text, next) {
    const tag = pick([...text.matchAll(TAG)], next);
    return tag === undefined ? text : text.slice(0, tag.index) + text.slice(tag.index + tag[0].length);
  },
  function duplicateTag(text, next) {
    const tag = pick([...text.matchAll(TAG)], next);
    return tag === undefined ? text : text.slice(0, tag.index) + tag[0] + text.slice(tag.index);
  },
  function deleteElement(text, next) {
    const element = pick([...text.matchAll(ELEMENT)], next);
    return element === undefined ? text : without(text, element);
  },
  function moveElement(text, next) {
    const element = pick([...text.matchAll(ELEMENT)], next);
    if (element === undefined) return text;
    const rest = without(text, element);
    const before = pick([...rest.matchAll(ELEMENT)], next);
    return before === undefined ? rest : rest.slice(0, before.index) + element[0] + rest.slice(before.index);
  },
  function duplicateElement(text, next) {
    const element = pick([...text.matchAll(ELEMENT)], next);
    return element === undefined
      ? text
      : text.slice(0, element.index) + element[0] + text.slice(element.index);
  },
  function repeatElements(text, next) {
    const from = next(text.length);
    const open = text.indexOf('<note', from);
    const end = text.indexOf('</note>', open);
    return open < 0 || end < 0
      ? text
      : text.slice(0, end + 7) + text.slice(open, end + 7).repeat(next(400)) + text.slice(end + 7);
  },
  function changeNumber(text, next) {
    const number = pick([...text.matchAll(/(?<=>)-?\d+(?=<)/g)], next);
    if (number === undefined) return text;
    return text.slice(0, number.index) + pick(NUMBERS, next) + text.slice(number.index + number[0].length);
  },
  function changeAttribute(text, next) {
    const value = pick([...text.matchAll(/(?<==")[^"]*(?=")/g)], next);
    const other = pick([...NUMBERS, 'x'.repeat(1 << 20), '&amp;'.repeat(999), '&nope;', '<'], next);
    return value === undefined
      ? text
      : text.slice(0, value.index) + other + text.slice(value.index + value[0].length);
  },
  function addAttributes(text, next) {
    const at = text.indexOf('<note', next(text.length));
    const many = Array.from({ length: next(20_000) }, (_, index) => ` a${index}="${index}"`).join('');
    return at < 0 ? text : `${text.slice(0, at + 5)}${many}${text.slice(at + 5)}`;
  },
  function nest(text, next) {
    const depth = pick([50, 120, 2000, 100_000], next);
    const at = text.indexOf('<measure', next(text.length));
    return at < 0 ? text : text.slice(0, at) + '<a>'.repeat(depth) + '</a>'.repeat(depth) + text.slice(at);
  },
  function swapTags(text, next) {
    const tags = [...text.matchAll(TAG)];
    const [a, b] = [pick(tags, next), pick(tags, next)].sort((x, y) => (x?.index ?? 0) - (y?.index ?? 0));
    if (a === undefined || b === undefined || a === b) return text;
    const between = text.slice(a.index + a[0].length, b.index);
    return text.slice(0, a.index) + b[0] + between + a[0] + text.slice(b.index + b[0].length);
  },
  function changeEncoding(text, next) {
    const names = ['UTF-16', 'ISO-8859-1', 'US-ASCII', 'windows-1252', 'UTF-8', 'EBCDIC-CP-US', ''];
    return text.replace(/encoding="[^"]*"/, `encoding="${pick(names, next)}"`);
  },
  function addMarkup(text, next) {
    const pieces = [
      '<?handline digit 3?>',
      '<?handline kept %3Cfingering%3E9%3C%2Ffingering%3E?>',
      '<!--',
      ']]>',
      '<![CDATA[',
      '<!DOCTYPE a [<!ENTITY b "&b;">]>',
      '\0',
      '&#0;',
      '<__proto__/>',
      '<barline location="middle"><repeat direction="backward" times="999999"/></barline>',
      '<backup><duration>1000000</duration></backup>',
      '<forward><duration>99999999</duration></forward>',
      '<words font-family="serif,handline-i3gxwe.a1c2e!4!">in</words>',
    ];
    const tag = pick([...text.matchAll(TAG)], next);
    return tag === undefined ? text : text.slice(0, tag.index) + pick(pieces, next) + text.slice(tag.index);
  },
];

const BYTE_MUTATIONS: readonly ((bytes: Uint8Array, next: Random) => Uint8Array)[] = [
  function flip(bytes, next) {
    const result = bytes.slice();
    for (let count = 1 + next(8); count > 0; count--) result[next(result.length)] = next(256);
    return result;
  },
  function truncate(bytes, next) {
    return bytes.slice(0, next(bytes.length));
  },
  function splice(bytes, next) {
    const [from, to] = [next(bytes.length), next(bytes.length)];
    return Buffer.concat([bytes.subarray(0, to), bytes.subarray(from, from + next(200)), bytes.subarray(to)]);
  },
  function recode(bytes, next) {
    const text = latin(bytes);
    const wide = Buffer.from(text, 'utf16le');
    const form = next(3);
    return form === 0
      ? wide
      : Buffer.concat([Uint8Array.from(form === 1 ? [0xff, 0xfe] : [0xef, 0xbb, 0xbf]), wide]);
  },
];

/** The score of an archive mutated inside it, or the archive's own bytes. */
function mutateOnce(bytes: Uint8Array, next: Random): Uint8Array {
  if (bytes.length < 4) return bytes;
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const kind = next(TEXT_MUTATIONS.length + BYTE_MUTATIONS.length);
  const byText = TEXT_MUTATIONS[kind];
  if (byText === undefined) {
    return (BYTE_MUTATIONS[kind - TEXT_MUTATIONS.length] as (typeof BYTE_MUTATIONS)[number])(bytes, next);
  }
  if (!zipped) return new Uint8Array(Buffer.from(byText(latin(bytes), next), 'latin1'));
  try {
    const files = unzipSync(bytes);
    const name = pick(Object.keys(files), next);
    files[name] = new Uint8Array(mutateOnce(files[name] as Uint8Array, next));
    return zipSync(files);
  } catch {
    return bytes.slice(0, -1);
  }
}

/** One to three mutations of a fixture; the same for the same seed. */
export function mutant(seed: number): Uint8Array {
  const next = random(seed);
  let bytes = pick(ORIGINALS, next);
  for (let count = 1 + next(3); count > 0; count--) bytes = mutateOnce(bytes, next);
  return bytes;
}

/** `marked`, or the code of the refusal; anything else that is thrown is a defect and goes on up. */
export function outcomeOf(bytes: Uint8Array): string {
  try {
    const { output, report } = annotate(bytes, { file: 'm', density: 'every', legend: true });
    for (const { message } of report.warnings) {
      if (/[\n]/.test(message)) throw new Error(`a warning of several lines: ${message}`);
    }
    clear(output);
    return 'marked';
  } catch (error) {
    if (!(error instanceof HandlineError)) throw error;
    if (/\n/.test(error.message)) throw new Error(`a refusal of several lines: ${error.message}`);
    return error.code;
  }
}
